package org.yardfall.site;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * A made-up site, read from no file: a test names what it is about. The rest is as in a draft; the
 * soil is of group D, the storm is not given and nothing has a price.
 */
public final class MadeUpSite {

  private final SiteDraft draft;

  private MadeUpSite(SiteDraft draft) {
    this.draft = draft;
  }

  /** A site on a plane of its own, in metres. */
  public static MadeUpSite site() {
    SiteDraft draft = new SiteDraft();
    draft.name = "invented";
    draft.crs = new WorkingCrs(null, "local", 1);
    draft.soil = Given.soil('D');
    draft.storm =
        new StormInput(
            OptionalDouble.empty(), OptionalDouble.empty(), null, OptionalDouble.empty());
    draft.prices = new Prices(Map.of());
    return new MadeUpSite(draft);
  }

  /** A site like another. */
  public static MadeUpSite like(Site site) {
    return new MadeUpSite(new SiteDraft(site));
  }

  public MadeUpSite name(String name) {
    draft.name = name;
    return this;
  }

  public MadeUpSite crs(WorkingCrs crs) {
    draft.crs = crs;
    return this;
  }

  public MadeUpSite lot(Parcel lot) {
    draft.lot = Optional.ofNullable(lot);
    return this;
  }

  public MadeUpSite parcels(List<Parcel> parcels) {
    draft.parcels = parcels;
    return this;
  }

  public MadeUpSite buildings(List<Building> buildings) {
    draft.buildings = buildings;
    return this;
  }

  public MadeUpSite obstacles(List<Obstacle> obstacles) {
    draft.obstacles = obstacles;
    return this;
  }

  public MadeUpSite crossings(List<Crossing> crossings) {
    draft.crossings = crossings;
    return this;
  }

  public MadeUpSite outlets(List<Outlet> outlets) {
    draft.outlets = outlets;
    return this;
  }

  public MadeUpSite surfaces(List<Surface> surfaces) {
    draft.surfaces = surfaces;
    return this;
  }

  public MadeUpSite openings(List<FlowOpening> openings) {
    draft.openings = openings;
    return this;
  }

  public MadeUpSite soil(Soil soil) {
    draft.soil = soil;
    return this;
  }

  public MadeUpSite storm(StormInput storm) {
    draft.storm = storm;
    return this;
  }

  public MadeUpSite drain(DrainLimits drain) {
    draft.drain = drain;
    return this;
  }

  public MadeUpSite prices(Prices prices) {
    draft.prices = prices;
    return this;
  }

  public MadeUpSite elevation(ElevationInput elevation) {
    draft.elevation = elevation;
    return this;
  }

  public MadeUpSite outletRules(OutletRules rules) {
    draft.outletRules = rules;
    return this;
  }

  public MadeUpSite seeps(List<Seep> seeps) {
    draft.seeps = seeps;
    return this;
  }

  public MadeUpSite levelled(List<LevelledSwale> levelled) {
    draft.levelled = levelled;
    return this;
  }

  public MadeUpSite assumptions(List<Assumption> assumptions) {
    draft.assumptions = assumptions;
    return this;
  }

  public MadeUpSite warnings(List<String> warnings) {
    draft.warnings = warnings;
    return this;
  }

  public MadeUpSite ortho(Path photo) {
    draft.inputs =
        new SiteInputs(
            null, photo, null, null, List.of(), null, null, null, null, null, null, null, null,
            null, null);
    return this;
  }

  public Site make() {
    return draft.site();
  }
}
