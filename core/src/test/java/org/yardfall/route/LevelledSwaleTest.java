package org.yardfall.route;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Polygon;
import org.yardfall.drain.DrainDesign;
import org.yardfall.drain.DrainDesigner;
import org.yardfall.drain.OverlandPath;
import org.yardfall.drain.StretchDesign;
import org.yardfall.pipe.PipeTable;
import org.yardfall.runoff.DrainEffect;
import org.yardfall.runoff.DrainEffectFinder;
import org.yardfall.runoff.InflowLedgerFinder;
import org.yardfall.runoff.RationalMethod;
import org.yardfall.runoff.Storm;
import org.yardfall.site.LevelledSwale;
import org.yardfall.site.Site;
import org.yardfall.site.Surface;
import org.yardfall.water.AlteredCell;
import org.yardfall.water.DammedWater;
import org.yardfall.water.LevelledGround;
import org.yardfall.water.SurfaceWater;
import org.yardfall.water.SurfaceWaterFinder;
import org.yardfall.water.SwaleLeveller;

/**
 * A builder's swale runs down the middle of two yards, the upper neighbour's and the lot's, and
 * water stands in it behind a hump. It is to be replaced by a buried drain and the lawn levelled.
 */
class LevelledSwaleTest {

  private static final double DEEP_M = 0.15;
  private static final double HALF_M = 0.75;

  private final Yard yard = yard();
  private final Site site = yard.site();
  private final SurfaceWater before = yard.water();
  private final LevelledGround levelled = SwaleLeveller.level(yard.terrain(), before, site);
  private final SurfaceWater after = SurfaceWaterFinder.find(levelled.after(), site);
  private final Storm storm = Storm.of(site.storm());

  /**
   * A valley that falls 1 % south and 2 % toward its middle, where a swale of 5 ft by 0.5 ft is
   * cut; a hump of 12 cm in its bed. A street on the east side, a neighbour above and one below.
   */
  private static Yard yard() {
    Yard yard =
        Yard.of(
                32,
                80,
                0.25,
                (x, y) ->
                    10
                        + 0.01 * y
                        + 0.02 * Math.abs(x - 16)
                        - Math.max(0, 1 - Math.abs(x - 16) / HALF_M)
                            * (DEEP_M - (Math.abs(y - 20) < 1 ? 0.12 : 0)))
            .lot("POLYGON((1 10, 29 10, 29 45, 1 45, 1 10))")
            .neighbour("above", "POLYGON((1 45, 29 45, 29 79, 1 79, 1 45))")
            .neighbour("below", "POLYGON((1 0, 29 0, 29 10, 1 10, 1 0))")
            .basin(30.5, 12, 8.9);
    yard.levelled.add(
        new LevelledSwale(
            "W1",
            (Polygon)
                Yard.wkt("POLYGON((15.2 10.5, 16.8 10.5, 16.8 44.5, 15.2 44.5, 15.2 10.5))")));
    return yard;
  }

  @Test
  void theSwaleIsFilledToTheGroundEitherSideAndEachCellListed() {
    assertFalse(levelled.cells().isEmpty());
    for (AlteredCell cell : levelled.cells()) {
      double x = yard.ground.frame().x(cell.cell() % yard.ground.frame().cols());
      assertTrue(Math.abs(x - 16) <= 0.8, "at " + x);
      assertTrue(cell.afterM() > cell.beforeM());
      assertEquals(yard.ground.z()[cell.cell()], cell.beforeM(), 0);
      assertEquals(levelled.after().ground().z()[cell.cell()], cell.afterM(), 0);
    }
    // Halfway down the ground on either side, 0.9 m off the middle, is at 10 + 0.3 + 0.018 m.
    assertEquals(10.318, levelled.after().ground().bilinear(16, 30), 0.01);
    // A triangle of 1.5 by 0.15 m over 34 m, less the hump's 2 m of 0.12 m; above it the banks
    // stand 1.6 cm over the valley's middle and half a cell more is filled: 0 to 0.6 m3.
    double cut = 0.5 * 1.5 * 0.15 * 34 - 0.5 * 1.5 * 0.12 * 2;
    double fill = levelled.swales().get(0).fillM3();
    assertTrue(fill > cut && fill < cut + 0.8, fill + " m3 for " + cut);
    // The water stood behind the hump; it does not any more.
    assertTrue(
        before.lowSpots().stream().anyMatch(s -> s.outline().intersects(Yard.wkt("POINT(16 22)"))));
    Geometry lot = site.lot().orElseThrow().outline();
    assertTrue(
        after.lowSpots().stream()
            .filter(s -> s.depthM() > 0.03)
            .noneMatch(s -> lot.contains(s.outline())));
  }

  /** The neighbour's part of the swale stays as it is, 15 cm deep, and ends at the fill. */
  @Test
  void theUpperNeighbourIsSaidToHaveTheDammedWater() {
    List<String> said = DammedWater.on(site, levelled, after);
    assertEquals(1, said.size(), said.toString());
    assertTrue(said.get(0).startsWith("the levelled swale dams the water of parcel above"));
    assertTrue(said.get(0).contains("its inlet belongs at that place"));
    double deeper =
        Double.parseDouble(said.get(0).replaceAll(".* up to ([0-9.]+) m deeper.*", "$1"));
    assertTrue(deeper > 0.05 && deeper <= 0.15, said.get(0));
  }

  /**
   * All that ran in the swale: two valley sides 16 m wide, which slope by 2 % inward and by 1 %
   * down, so that water goes down by half of what it goes in until it is in the swale from 10.5 m
   * up.
   */
  @Test
  void thePipeTakesTheSwalesDesignFlowWithTheUpperLots() {
    double in = 16 - 0.8;
    double valley = 2 * ((80 - 10.5) * 16 - 0.5 * in * in / 2);
    assertEquals(valley, levelled.swales().get(0).areaM2(), 0.01 * valley);
    DrainDesign design = sized();
    // The foot of the valley lies between two columns of cells and the drain in one of them: what
    // comes down the other over the last metres passes it by.
    double takes = design.catchment().areaM2();
    assertTrue(takes > 0.93 * valley && takes < 1.05 * valley, takes + " for " + valley);
    // The upper neighbour's valley sides alone, without what enters abreast of the lot.
    assertTrue(design.catchment().beyondM2() > 0.5 * valley, design.catchment().toString());
    List<StretchDesign> main = design.main().stretches();
    StretchDesign last = main.get(main.size() - 1);
    assertEquals(last.arrivingM3S(), last.passesM3S(), 1e-12);
    double c = RationalMethod.coefficient(Surface.Kind.LAWN, 'C', 0.0212);
    double q = c * storm.intensityMS(last.timeS()) * last.areaM2();
    assertEquals(q, last.passesM3S(), 0.05 * q);
    assertTrue(last.loading() <= 1, last.toString());
  }

  @Test
  void theDrainLiesInTheLevelledLawnAlongTheOldBed() {
    Route route = route();
    assertEquals(DrainKind.SWALE, route.kind());
    assertTrue(route.audit().passed());
    assertTrue(route.reasons().get(0).startsWith("it takes the place of swale W1"));
    for (Station s : route.main().stations()) {
      assertEquals(levelled.after().ground().bilinear(s.x(), s.y()), s.groundM(), 0.005);
    }
    assertTrue(
        route.main().stations().stream().filter(s -> Math.abs(s.x() - 16) < 0.5).count() > 5);
    assertTrue(route.cautions().stream().anyMatch(c -> c.contains("inlet with a grate")));
    assertTrue(route.cautions().stream().anyMatch(c -> c.contains("may need leave")));
  }

  @Test
  void whileThePipeIsBlockedTheWaterRunsDownTheLevelledLawnOntoTheNeighbourBelow() {
    OverlandPath path = design(route()).overland().orElseThrow();
    // It stands nowhere but behind the fill, on the upper neighbour's ground.
    for (OverlandPath.Pool pool : path.pools()) {
      assertTrue(
          after.lowSpots().stream()
              .filter(spot -> spot.id().equals(pool.lowSpotId()))
              .allMatch(spot -> spot.deepest().y > 44),
          path.sentence());
    }
    assertEquals(List.of(new OverlandPath.Onto("below", false)), path.parcels());
    assertTrue(path.sentence().contains("comes onto parcel below"), path.sentence());
  }

  @Test
  void theNeighbourBelowReceivesNoMoreThanThroughTheSwaleBefore() {
    DrainDesigner designer = DrainDesigner.of(site, levelled, after, storm);
    Route route = route();
    DrainEffect effect =
        DrainEffectFinder.of(
                InflowLedgerFinder.of(site, yard.terrain(), before, storm, Optional.empty()),
                InflowLedgerFinder.of(site, levelled.after(), after, storm, Optional.empty()))
            .find(
                designer.takes(route).takes(),
                designer.takes(route).keepsM3(),
                site.outlets().get(0));
    DrainEffect.NeighbourChange below =
        effect.neighbours().stream()
            .filter(n -> n.neighbour().equals("below"))
            .findFirst()
            .orElseThrow();
    assertTrue(below.beforeM3() > 0);
    assertTrue(below.afterM3() < 0.5 * below.beforeM3(), below.toString());
    assertFalse(effect.anyRises(), effect.warnings().toString());
  }

  /** The design with the pipe that the water needs, planned anew with each larger one. */
  private DrainDesign sized() {
    DrainDesign design = design(route());
    Site larger = site;
    for (int round = 0; design.tooSmall().isPresent() && round < 4; round++) {
      larger = larger.withDrain(PipeTable.with(larger.drain(), design.tooSmall().get()));
      design = DrainDesigner.of(larger, levelled, after, storm).design(route(larger));
    }
    assertTrue(design.tooSmall().isEmpty());
    return design;
  }

  private DrainDesign design(Route route) {
    return DrainDesigner.of(site, levelled, after, storm).design(route);
  }

  private Route route() {
    return route(site);
  }

  private Route route(Site asked) {
    Proposal found =
        RouteFinder.propose(
            asked,
            levelled.after(),
            after,
            yard.flows,
            InflowLedgerFinder.of(asked, levelled.after(), after, storm, Optional.empty())
                .interception(),
            levelled.swales(),
            Optional.empty());
    assertFalse(found.routes().isEmpty(), () -> found.plan().rejected().toString());
    return found.routes().get(0);
  }
}
