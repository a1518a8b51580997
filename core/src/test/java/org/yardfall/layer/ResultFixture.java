package org.yardfall.layer;

import java.nio.file.Path;
import java.util.BitSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.yardfall.drain.DrainDesign;
import org.yardfall.drain.DrainDesigner;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.Terrain;
import org.yardfall.route.RoutePlan;
import org.yardfall.runoff.DrainEffectFinder;
import org.yardfall.runoff.InflowLedger;
import org.yardfall.runoff.InflowLedgerFinder;
import org.yardfall.site.MadeUpSite;
import org.yardfall.site.Site;
import org.yardfall.water.DepressionHierarchy;
import org.yardfall.water.Freeboard;
import org.yardfall.water.RoofRunoff;
import org.yardfall.water.SurfaceWater;
import org.yardfall.water.SwaleLeveller;

/**
 * A result drawn by hand, for tests of what is written and shown: an invented lot of 60 m by 50 m
 * on ground that falls 1 % to the east and 1 % to the south, with a dip of 5 m radius in its
 * middle. Its first route runs along the north and east sides at 1 %, half a metre deep, with one
 * branch.
 */
public final class ResultFixture {

  /** The lot's size in metres. */
  public static final double WIDTH_M = 60;

  /** The lot's size in metres. */
  public static final double HEIGHT_M = 50;

  private ResultFixture() {}

  /** The lot's south-west corner at 500000, 4983000 of UTM zone 15. */
  public static Result metric() {
    return withIds("7", "6");
  }

  /** The lot's south-west corner at 1500000, 1490000 of a state plane zone in US survey feet. */
  public static Result usFeet() {
    return of(new InventedLot("EPSG:2903", 1500000, 1490000, "7", "6"));
  }

  /** As {@link #metric()}, the given text being the lot's, a neighbour's and an outlet's id. */
  public static Result withIds(String id) {
    return withIds(id, id);
  }

  private static Result withIds(String lotId, String neighbourId) {
    return of(new InventedLot("EPSG:26915", 500000, 4983000, lotId, neighbourId));
  }

  /** As {@link #metric()}, on an orthophoto. */
  public static Result onPhoto(Path photo) {
    Result full = metric();
    return with(full, MadeUpSite.like(full.site()).ortho(photo).make(), full.notes());
  }

  /** As {@link #metric()}, on another site. */
  public static Result on(Site site) {
    Result full = metric();
    return with(full, site, full.notes());
  }

  /** A result with other notes. */
  public static Result noting(Result full, String... notes) {
    return with(full, full.site(), List.of(notes));
  }

  private static Result with(Result full, Site site, List<String> notes) {
    return new Result(
        site,
        full.terrain(),
        full.water(),
        full.levelled(),
        full.standing(),
        full.blocked(),
        full.freeboard(),
        full.ledger(),
        full.plan(),
        full.designs(),
        full.effects(),
        notes);
  }

  /** As {@link #metric()}, but with nothing found, no lot and nothing given. */
  public static Result empty() {
    Result full = metric();
    Site site = full.site();
    SurfaceWater water = full.water();
    return new Result(
        MadeUpSite.site()
            .name(site.name())
            .crs(site.crs())
            .soil(site.soil())
            .storm(site.storm())
            .drain(site.drain())
            .prices(site.prices())
            .elevation(site.elevation())
            .make(),
        full.terrain(),
        new SurfaceWater(
            water.ground(),
            water.filled(),
            water.flow(),
            water.areaM2(),
            water.edge(),
            List.of(),
            List.of(),
            List.of(),
            new BitSet(),
            RoofRunoff.none(),
            List.of(),
            DepressionHierarchy.of(water.ground()),
            new int[0],
            List.of(),
            List.of()),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Map.of(),
        Optional.empty(),
        new RoutePlan(List.of(), List.of(), Optional.empty(), List.of(), List.of()),
        List.of(),
        List.of(),
        List.of());
  }

  private static Result of(InventedLot lot) {
    InventedWater drawn = new InventedWater(lot);
    ElevationGrid ground = lot.ground();
    Site site = lot.site();
    Terrain terrain = lot.terrain(ground);
    SurfaceWater water = drawn.water(ground);
    InflowLedger ledger = drawn.ledger();
    RoutePlan plan = new InventedPlan(lot).plan(ground);
    DrainDesigner designer = DrainDesigner.of(site, terrain, water, ledger.storm());
    List<DrainDesign> designs = plan.routes().stream().map(designer::design).toList();
    DrainEffectFinder effects =
        DrainEffectFinder.of(
            InflowLedgerFinder.of(
                site, terrain, water, ledger.storm(), Optional.of(drawn.standing())));
    return new Result(
        site,
        terrain,
        water,
        Optional.of(SwaleLeveller.level(terrain, water, site)),
        Optional.of(drawn.standing()),
        Optional.of(drawn.blocked()),
        Freeboard.byLowSpot(water.lowSpots(), site, ground),
        Optional.of(ledger),
        plan,
        designs,
        designs.stream()
            .map(
                d ->
                    effects.find(
                        d.catchment().takes(), d.catchment().keepsM3(), site.outlets().get(0)))
            .toList(),
        List.of());
  }
}
