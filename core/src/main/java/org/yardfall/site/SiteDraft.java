package org.yardfall.site;

import java.util.List;
import java.util.Optional;

/**
 * A site in the making: what a {@link Site} holds, by name, to be set one by one. At first nothing
 * is given, nothing is drawn, and the usual rules for outlets hold.
 */
final class SiteDraft {

  String name = "";
  WorkingCrs crs;
  Optional<Parcel> lot = Optional.empty();
  List<Parcel> parcels = List.of();
  List<Building> buildings = List.of();
  List<Obstacle> obstacles = List.of();
  List<Crossing> crossings = List.of();
  List<Outlet> outlets = List.of();
  List<Surface> surfaces = List.of();
  List<FlowOpening> openings = List.of();
  Soil soil;
  StormInput storm;
  DrainLimits drain;
  Prices prices;
  ElevationInput elevation;
  OutletRules outletRules = OutletRules.usual();
  List<PinnedLine> pinned = List.of();
  List<Seep> seeps = List.of();
  List<LevelledSwale> levelled = List.of();
  List<Assumption> assumptions = List.of();
  List<String> warnings = List.of();
  SiteInputs inputs = SiteInputs.NONE;

  SiteDraft() {}

  SiteDraft(Site site) {
    name = site.name();
    crs = site.crs();
    lot = site.lot();
    parcels = site.parcels();
    buildings = site.buildings();
    obstacles = site.obstacles();
    crossings = site.crossings();
    outlets = site.outlets();
    surfaces = site.surfaces();
    openings = site.openings();
    soil = site.soil();
    storm = site.storm();
    drain = site.drain();
    prices = site.prices();
    elevation = site.elevation();
    outletRules = site.outletRules();
    pinned = site.pinned();
    seeps = site.seeps();
    levelled = site.levelled();
    assumptions = site.assumptions();
    warnings = site.warnings();
    inputs = site.inputs();
  }

  Site site() {
    return new Site(
        name,
        crs,
        lot,
        parcels,
        buildings,
        obstacles,
        crossings,
        outlets,
        surfaces,
        openings,
        soil,
        storm,
        drain,
        prices,
        elevation,
        outletRules,
        pinned,
        seeps,
        levelled,
        assumptions,
        warnings,
        inputs);
  }
}
