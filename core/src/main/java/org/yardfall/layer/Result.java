package org.yardfall.layer;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.yardfall.drain.DrainDesign;
import org.yardfall.elevation.Terrain;
import org.yardfall.route.Route;
import org.yardfall.route.RoutePlan;
import org.yardfall.runoff.BoundaryFlow;
import org.yardfall.runoff.DrainEffect;
import org.yardfall.runoff.InflowLedger;
import org.yardfall.site.Assumption;
import org.yardfall.site.Outlet;
import org.yardfall.site.Site;
import org.yardfall.site.UnitSystem;
import org.yardfall.water.Freeboard;
import org.yardfall.water.LevelledGround;
import org.yardfall.water.LowSpot;
import org.yardfall.water.StandingWater;
import org.yardfall.water.SurfaceWater;

/**
 * Everything found out about a site. Each stage's record is kept whole, so that what is written and
 * drawn is never computed again.
 *
 * @param site what is on the ground and what was asked
 * @param terrain the ground as read, swales that are to be levelled being filled
 * @param water what the surface water does there
 * @param levelled the ground before and after, where swales are levelled
 * @param standing what is left standing after the design storm, the inlets being open; empty where
 *     none was computed
 * @param blocked the same while every inlet is blocked; empty where there is none
 * @param freeboard by low spot, the freeboard of the lots round it above the level at which it
 *     spills
 * @param ledger what water crosses the property line in the design storm on the ground as it is;
 *     empty without a lot
 * @param plan the routes proposed and rejected; without any where only the surface water was asked
 * @param designs the proposed routes made buildable, in their order
 * @param effects what each of them changes across the property line, in their order; empty where it
 *     was not asked
 * @param notes what was odd between the stages, in words
 */
public record Result(
    Site site,
    Terrain terrain,
    SurfaceWater water,
    Optional<LevelledGround> levelled,
    Optional<StandingWater> standing,
    Optional<StandingWater> blocked,
    Map<String, List<Freeboard>> freeboard,
    Optional<InflowLedger> ledger,
    RoutePlan plan,
    List<DrainDesign> designs,
    List<DrainEffect> effects,
    List<String> notes) {

  /** Keeps the collections to itself. */
  public Result {
    freeboard = Map.copyOf(freeboard);
    designs = List.copyOf(designs);
    effects = List.copyOf(effects);
    notes = List.copyOf(notes);
  }

  /** The same before any drain was asked for. */
  public Result withoutDrains() {
    return planned(
        site,
        new RoutePlan(List.of(), List.of(), Optional.empty(), List.of(), List.of()),
        List.of(),
        List.of());
  }

  /** The same water with drains planned for it. */
  public Result planned(
      Site plannedSite, RoutePlan routes, List<DrainDesign> made, List<DrainEffect> changes) {
    return new Result(
        plannedSite,
        terrain,
        water,
        levelled,
        standing,
        blocked,
        freeboard,
        ledger,
        routes,
        made,
        changes,
        notes);
  }

  /** Where water may go: the outlets given, then those found on the lot's own slope. */
  public List<Outlet> outlets() {
    return Stream.concat(site.outlets().stream(), plan.found().stream()).toList();
  }

  /** A proposed route made buildable. */
  public Optional<DrainDesign> design(Route route) {
    return designs.stream().filter(d -> d.routeId().equals(route.id())).findFirst();
  }

  /** What a proposed route changes across the property line. */
  public Optional<DrainEffect> effect(Route route) {
    int at = plan.routes().indexOf(route);
    return at >= 0 && at < effects.size() ? Optional.of(effects.get(at)) : Optional.empty();
  }

  /** Where water crosses the property line: inward, then outward, largest first. */
  public List<BoundaryFlow> flows() {
    return ledger.map(InflowLedger::all).orElse(List.of());
  }

  /** The routes proposed, by rank; empty where nothing works or nothing was asked. */
  public List<Route> routes() {
    return plan.routes();
  }

  /** What was assumed, in the order of the stages, each said once. */
  public List<Assumption> assumptions() {
    Set<Assumption> all = new LinkedHashSet<>(site.assumptions());
    all.addAll(terrain.assumptions());
    all.addAll(water.assumptions());
    ledger.map(InflowLedger::assumptions).ifPresent(all::addAll);
    all.addAll(plan.assumptions());
    designs.forEach(design -> all.addAll(design.assumptions()));
    return List.copyOf(all);
  }

  /** What was odd, in words, in the order of the stages, each said once. */
  public List<String> warnings() {
    Set<String> all = new LinkedHashSet<>(site.warnings());
    all.addAll(terrain.warnings());
    all.addAll(water.warnings());
    ledger.map(InflowLedger::warnings).ifPresent(all::addAll);
    all.addAll(plan.warnings());
    designs.forEach(
        design -> design.warnings().forEach(warning -> all.add(design.routeId() + ": " + warning)));
    for (int i = 0; i < effects.size(); i++) {
      String id = plan.routes().get(i).id();
      effects.get(i).warnings().forEach(warning -> all.add(id + ": " + warning));
    }
    all.addAll(notes);
    return List.copyOf(all);
  }

  /** What the builders of the proposed routes must be told, in metres. */
  public List<String> cautions() {
    return cautions(UnitSystem.METRIC);
  }

  /** What the builders of the proposed routes must be told, in order of rank, each said once. */
  public List<String> cautions(UnitSystem units) {
    Set<String> all = new LinkedHashSet<>();
    routes().forEach(route -> all.addAll(cautions(route, units)));
    return List.copyOf(all);
  }

  /** What the builders of one route must be told. */
  public List<String> cautions(Route route, UnitSystem units) {
    Set<String> all = new LinkedHashSet<>(route.cautions());
    designs.stream()
        .filter(design -> design.routeId().equals(route.id()))
        .flatMap(design -> design.cautions().stream())
        .forEach(
            caution ->
                all.add(
                    Double.isNaN(caution.stationM())
                        ? caution.sentence(units)
                        : route.id() + ", " + caution.sentence(units)));
    return List.copyOf(all);
  }

  /** The freeboard of the lots round a low spot; empty where none was found. */
  public List<Freeboard> freeboard(LowSpot spot) {
    return freeboard.getOrDefault(spot.id(), List.of());
  }
}
