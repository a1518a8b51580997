package org.yardfall.route;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.Polygon;
import org.yardfall.drain.DrainDesigner;
import org.yardfall.drain.OverlandPath;
import org.yardfall.runoff.Storm;
import org.yardfall.site.Building;
import org.yardfall.site.FlowOpening;
import org.yardfall.site.Outlet;
import org.yardfall.site.PinnedLine;
import org.yardfall.site.Site;
import org.yardfall.water.SurfaceWater;

/** Where the water of a proposed drain goes over the ground while its pipe is blocked. */
class BlockedDrainTest {

  private static final String REAR = "POLYGON((5 -10, 35 -10, 35 5, 5 5, 5 -10))";

  /** A lawn that falls 2 % south with a hollow in it; the rear neighbour lies below. */
  private static Yard hollow() {
    return Yard.lot((x, y) -> 10 + 0.02 * y - CollectorsTest.bowl(x, y, 20, 25, 4, 0.3))
        .neighbour("rear", REAR)
        .basin(38, 30, 9);
  }

  @Test
  void theHollowFillsSpillsDownhillAndComesOntoTheNeighbourBelow() {
    OverlandPath path = blocked(hollow(), hollow().site());
    OverlandPath.Pool pool = path.pools().get(0);
    assertEquals(1, path.pools().size());
    // The rim's lowest ground is where the bowl ends southward: 10 + 0.02 * 21 = 10.42, and a
    // little inward where bowl and slope balance; the spill cannot lie above that.
    assertTrue(pool.spillM() <= 10.43 && pool.spillM() > 10.3, pool.toString());
    assertEquals(List.of(new OverlandPath.Onto("rear", false)), path.parcels());
    assertTrue(path.reachesNeighbour());
    assertEquals("", path.outletId());
    // From the hollow's deepest place, about 25 m from the grid's southern edge, straight down.
    assertEquals(24.5, path.line().getLength(), 1.5);
    assertEquals(0, path.line().getEndPoint().getY(), 0.5);
    assertTrue(
        path.sentence().contains("comes onto parcel rear and leaves the known ground"),
        path.sentence());
  }

  @Test
  void intoADitchItIsToldAndNoNeighbourNamed() {
    Yard yard =
        Yard.lot((x, y) -> 10 + 0.02 * y - CollectorsTest.bowl(x, y, 20, 25, 4, 0.3))
            .outlet("D1", Outlet.Kind.DITCH, 20, 3, 9.2);
    OverlandPath path = blocked(yard, yard.site());
    assertEquals("D1", path.outletId());
    assertFalse(path.reachesNeighbour());
    assertTrue(
        path.sentence().endsWith("comes onto ground in no parcel and runs into outlet D1"),
        path.sentence());
  }

  /** A bank across the lot with a culvert through it: the one way out for what the drain leaves. */
  @Test
  void theCulvertItPassesIsNamedAndTheDoorBesideItMeasured() {
    Yard yard =
        Yard.lot((x, y) -> 10 + 0.02 * y + 0.01 * Math.abs(x - 20) + (Math.abs(y - 15) < 1 ? 1 : 0))
            .basin(38, 19, 9);
    yard.buildings.add(
        new Building(
            "house",
            (Polygon) Yard.wkt("POLYGON((22 8, 30 8, 30 12, 22 12, 22 8))"),
            OptionalDouble.empty(),
            OptionalDouble.of(10.5)));
    yard.openings.add(
        new FlowOpening(
            "C1",
            FlowOpening.Kind.CULVERT,
            (LineString) Yard.wkt("LINESTRING(20 18, 20 12)"),
            OptionalDouble.of(10.3),
            OptionalDouble.of(10.2)));
    LineString drawn = (LineString) Yard.wkt("LINESTRING(8 19, 38 19)");
    OverlandPath path =
        blocked(yard, yard.site().withPinned(List.of(new PinnedLine("mine", drawn, "", ""))));
    assertEquals(List.of("culvert C1"), path.openings());
    OverlandPath.Beside beside = path.buildings().get(0);
    assertEquals("house", beside.buildingId());
    // Two metres west of the wall the way is at its highest abreast of the house's north end
    // (a cell south of the culvert's mouth at 10.2 m); the door sill is at 10.5 m.
    assertEquals(0.3, beside.freeboardM(), 0.08);
  }

  private static OverlandPath blocked(Yard yard, Site site) {
    SurfaceWater water = yard.water();
    RoutePlan plan = RouteFinder.plan(site, yard.terrain(), water, yard.flows);
    assertFalse(plan.routes().isEmpty(), () -> plan.rejected().toString());
    return DrainDesigner.design(
            plan.routes().get(0), site, yard.terrain(), water, Storm.of(site.storm()))
        .overland()
        .orElseThrow();
  }
}
