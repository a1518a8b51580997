package org.yardfall.route;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.function.DoubleBinaryOperator;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.drain.DrainDesigner;
import org.yardfall.runoff.Storm;
import org.yardfall.site.Given;
import org.yardfall.site.MadeUpSite;
import org.yardfall.site.Outlet;
import org.yardfall.site.Site;
import org.yardfall.water.LowSpot;

/** Small yards whose trouble is where the water may go, each planned whole. */
class OutletStoriesTest {

  private static final double FOOT = 0.3048;
  private static final String NORTH = "LINESTRING(5 45, 35 45)";

  /** Depth to invert at which a pipe of 0.117 m has its 0.15 m of cover. */
  private static final double LEAST_DEPTH_M = 0.15 + 0.117;

  /** A yard of 40 by 50 m. */
  private static Yard yard(DoubleBinaryOperator ground) {
    return Yard.lot(ground);
  }

  /** Falls 2 % to the south; water comes over its northern line. */
  private static Yard plane() {
    return yard((x, y) -> 10 + 0.02 * y).inflow("north", 300, NORTH);
  }

  /** A shallow cone: all 2000 m² of it drain to its middle, whose outlet lies higher. */
  private static Yard landLocked() {
    return yard((x, y) -> 10 + 0.05 * Math.hypot(x - 20, y - 25));
  }

  /**
   * From the back yard to the street's curb there are 3 in of fall in all. A pop-up takes about 6
   * in of head, which leaves it 0.25 ft short; the curb itself can be reached over 25 ft at 1 % or
   * 50 ft at 0.5 % ({@code common practice, no source}; the lengths are arithmetic).
   */
  @Test
  void threeInchesOfFallLiftNoPopUpButReachTheCurb() {
    double yardM = 10 + 0.25 * FOOT;
    Yard popUp =
        yard((x, y) -> yardM)
            .inflow("north", 300, NORTH)
            .outlet(
                outlet("pop-up", Outlet.Kind.STREET, 3, 9, none(), OptionalDouble.of(10), none()));
    Site withHead = MadeUpSite.like(popUp.site()).outletRules(Given.lidTaking(0.5 * FOOT)).make();
    Rejection refused = rejected(popUp.plan(withHead), "lid-too-high");
    assertEquals(0.25 * FOOT, refused.shortfallM().orElseThrow(), 0.001);

    checkCurb(24.9, 0.01, true);
    checkCurb(25.5, 0.01, false);
    checkCurb(49.9, 0.005, true);
    checkCurb(50.5, 0.005, false);
  }

  /**
   * Water stands 0.1 m deep in a level yard at 10 m, 0.05 m of it above a lid at 9.85 m. With 0.15
   * m of cover over a pipe of 0.117 m the pipe's upper end lies from 9.633 m, under the middle of
   * the hollow, to 9.733 m, beside it: 0.117 to 0.217 m below the lid. It is said once, whatever
   * the drain would have been the least of.
   */
  @Test
  void aLidAboveThePipesUpperEndIsRefusedOnceByWhatIsMissing() {
    RoutePlan plan =
        yard((x, y) -> 10 - CollectorsTest.bowl(x, y, 20, 15, 3, 0.1))
            .outlet(
                new Outlet(
                    "pop-up",
                    Outlet.Kind.STREET,
                    new Coordinate(20, 4.5),
                    OptionalDouble.of(9.5),
                    none(),
                    OptionalDouble.of(9.85),
                    ""))
            .plan();
    assertTrue(plan.routes().isEmpty());
    List<Rejection> refused =
        plan.rejected().stream().filter(x -> x.outletId().equals("pop-up")).toList();
    assertEquals(1, refused.size(), refused.toString());
    assertEquals("lid-too-high", refused.get(0).code());
    assertEquals(0.167, refused.get(0).shortfallM().orElseThrow(), 0.051);
    assertTrue(refused.get(0).sentence().contains("through the curb"));
  }

  /** Nothing can be proposed, so the question that goes with every drain is asked by itself. */
  @Test
  void aLotWithoutAnOutletIsAskedWhetherItsWaterIsGroundwater() {
    assertTrue(
        plane().neighbour("rear", "POLYGON((0 0, 40 0, 40 5, 0 5, 0 0))").plan().warnings().stream()
            .anyMatch(w -> w.startsWith("surface or groundwater?")));
  }

  private static void checkCurb(double lengthFt, double minGrade, boolean reaches) {
    double lengthM = lengthFt * FOOT;
    double invert = 10 - LEAST_DEPTH_M - 0.25 * FOOT;
    Yard yard =
        yard((x, y) -> 10)
            .outlet("curb", Outlet.Kind.STREET, 20, 3, invert)
            .limits(Given.limits(minGrade, 0.2, 0.15, 1.2, 0.6, 0.9, 0.45, 0.117, 0.102));
    RoutePlan plan = yard.plan(yard.drawn("LINESTRING(20 " + (3 + lengthM) + ", 20 3)"));
    assertEquals(reaches, !plan.routes().isEmpty(), plan.rejected().toString());
    if (!reaches) {
      // It says which limit binds: the outlet by what the run falls too far, or the grade.
      Rejection no = rejected(plan, "as-drawn");
      double short1 = minGrade * lengthM - 0.25 * FOOT;
      assertEquals(short1, relax(no, "outlet"), 0.001);
      assertEquals(0.25 * FOOT / lengthM, relax(no, "min-grade"), 2e-5);
      assertTrue(no.sentence().contains("below outlet curb"), no.sentence());
    }
  }

  /**
   * A land-locked yard whose owner plans a pit filled with rock: without a percolation test nobody
   * can say whether it works, and it would have to hold the storm.
   */
  @Test
  void aRockPitInALandLockedYardIsHeldAgainstTheStormAndNeverSaidToWork() {
    Yard yard = landLocked().outlet("pit", Outlet.Kind.DRY_WELL, 20, 15, 9);
    RoutePlan plan = yard.plan();
    assertTrue(plan.routes().isEmpty());
    Rejection no = rejected(plan, "soil-unknown");
    assertTrue(no.sentence().contains("whether a dry well works cannot be said"), no.sentence());
    assertTrue(no.sentence().contains("percolation test"), no.sentence());
    // 2000 m2 at 65 mm are 130 m3, and 130 / 0.40 = 325 m3 of stone.
    assertTrue(
        no.sentence().contains("rains 130.0 m3 on the 2000 m2 that drain to it, which fills 325.0"),
        no.sentence());
  }

  /**
   * A pond of 15 by 8 ft over a filled pool, no way out but the next yard: what naturally runs as a
   * broad sheet may, a point at the shared line may not.
   */
  @Test
  void aPondThatSpillsToTheNextYardIsOfferedBroadFlowAndNoPointOutlet() {
    double a = 7.5 * FOOT;
    double b = 4 * FOOT;
    Yard yard =
        Yard.of(
                40,
                50,
                0.25,
                (x, y) -> {
                  double r = Math.hypot((x - 20) / a, (y - 25) / b);
                  return 10 + 0.001 * y - (r < 1 ? 0.1 * (1 - r * r) : 0);
                })
            .lot(Yard.LOT)
            .neighbour(
                "around", "POLYGON((0 0, 40 0, 40 50, 0 50, 0 0),(5 5, 5 45, 35 45, 35 5, 5 5))")
            .outlet("end", Outlet.Kind.DAYLIGHT, 20, 8, 10.008);
    LowSpot pond = yard.water().lowSpots().get(0);
    // pi/4 * 15 * 8 = 94 square feet, a little less as its rim lies lower on one side.
    assertEquals(Math.PI * a * b, pond.areaM2(), 0.06 * Math.PI * a * b);
    // It spills to the south: 180 degrees from grid north, within its own half width.
    double bearing =
        Math.toDegrees(
            Math.atan2(
                pond.spillPoint().x - pond.deepest().x, pond.spillPoint().y - pond.deepest().y));
    assertEquals(180, Math.abs(bearing), 45);
    RoutePlan plan = yard.plan();
    assertTrue(plan.routes().isEmpty());
    Rejection no = rejected(plan, "onto-neighbour");
    assertTrue(no.sentence().contains("as a point, which concentrates it"), no.sentence());
    assertTrue(no.sentence().contains("spread it level along the lot's own line"), no.sentence());
  }

  /** No sewer in reach: 10 ft behind the house; a cut of the curb carries its permit. */
  @Test
  void nineFeetBehindTheHouseIsNoLawfulPlaceAndElevenIs() {
    Yard yard =
        plane()
            .house("POLYGON((15 25, 25 25, 25 35, 15 35, 15 25))")
            .outlet("near", Outlet.Kind.DAYLIGHT, 20, 25 - 9 * FOOT, 9.9)
            .outlet("far", Outlet.Kind.DAYLIGHT, 20, 25 - 11 * FOOT, 9.9)
            .outlet("curb", Outlet.Kind.STREET, 10, 2, 9.5);
    RoutePlan plan = yard.plan();
    assertTrue(refuses(plan, "near", "outlet-zone"), plan.rejected().toString());
    assertFalse(refuses(plan, "far", "outlet-zone"), plan.rejected().toString());
    Route curb =
        plan.routes().stream().filter(r -> r.outletId().equals("curb")).findFirst().orElseThrow();
    assertTrue(
        curb.cautions().stream().anyMatch(c -> c.contains("cutting a curb needs")),
        curb.cautions().toString());
  }

  @Test
  void aLotTooNarrowForTheRulesIsToldThereIsNoLawfulSurfaceOutlet() {
    Yard yard = Yard.of(20, 40, 0.5, (x, y) -> 10 + 0.02 * y);
    yard.lot("POLYGON((5 5, 10 5, 10 35, 5 35, 5 5))")
        .neighbour("west", "POLYGON((0 0, 5 0, 5 40, 0 40, 0 0))")
        .neighbour("east", "POLYGON((10 0, 20 0, 20 40, 10 40, 10 0))")
        .house("POLYGON((6 10, 9 10, 9 33, 6 33, 6 10))")
        .inflow("north", 300, "LINESTRING(5 35, 10 35)")
        .outlet("end", Outlet.Kind.DAYLIGHT, 7.5, 7, 9.8);
    Rejection no = rejected(yard.plan(), "outlet-zone");
    assertTrue(no.sentence().contains("there is no lawful surface outlet"), no.sentence());
  }

  /** Pumped water freezes on the street; gravity water may go there where the local rule allows. */
  @Test
  void theSameCurbIsRefusedToAPumpAndAllowedToGravity() {
    Yard yard = plane().outlet("curb", Outlet.Kind.STREET, 20, 2, 9.5);
    assertEquals("curb", yard.plan().routes().get(0).outletId());
    Site pumped = MadeUpSite.like(yard.site()).outletRules(Given.pumped()).make();
    RoutePlan plan = yard.plan(pumped);
    assertTrue(plan.routes().isEmpty());
    assertTrue(rejected(plan, "pumped-to-street").sentence().contains("ice and flooding"));
  }

  /** A ditch that stands above the yard in the storm takes no water by gravity, but a pump's. */
  @Test
  void aPumpReachesADitchWhoseWaterStandsAboveTheYard() {
    Yard yard =
        plane()
            .outlet(
                new Outlet(
                    "ditch",
                    Outlet.Kind.DITCH,
                    new Coordinate(20, 2),
                    OptionalDouble.of(9.5),
                    OptionalDouble.of(10.6),
                    OptionalDouble.of(10.7),
                    ""));
    assertTrue(yard.plan().routes().isEmpty());
    RoutePlan plan = yard.plan(MadeUpSite.like(yard.site()).outletRules(Given.pumped()).make());
    assertEquals("ditch", plan.routes().get(0).outletId());
    assertTrue(
        plan.routes().get(0).cautions().stream().noneMatch(c -> c.contains("in the storm its")));
  }

  /** An entry court below the curb: sump, pump, one-way valve; the weak point is a long outage. */
  @Test
  void aCourtBelowTheCurbIsToldTheLiftTheValveAndWhatAnOutageBrings() {
    // South of 4 m lies the street, which falls away; its curb's flow line is at 10.9 m.
    Yard yard =
        yard((x, y) -> y < 4 ? 10.9 + 0.02 * y : 10 + 0.05 * Math.hypot(x - 20, y - 25))
            .outlet("curb", Outlet.Kind.STREET, 20, 2, 10.9);
    RoutePlan plan = yard.plan();
    assertTrue(plan.routes().isEmpty());
    Rejection no =
        plan.rejected().stream()
            .filter(x -> x.kind() == DrainKind.LOW_SPOT)
            .findFirst()
            .orElseThrow();
    assertEquals("no-fall", no.code(), no.sentence());
    // From a pipe of least depth where the line's ground is lowest, a cell off the middle.
    double lift = 10.9 - (10 - LEAST_DEPTH_M);
    double told =
        Double.parseDouble(no.sentence().replaceAll(".*lift the water ([0-9.]+) m.*", "$1"));
    assertEquals(lift, told, 0.03, no.sentence());
    assertTrue(no.sentence().contains("a one-way valve"), no.sentence());
    // 40 by 45.5 m drain to it (the row along the curb sheds to the street): 65 mm in 24 h.
    double hourly = 40 * 45.5 * 0.065 / 24;
    double said =
        Double.parseDouble(no.sentence().replaceAll(".*up to ([0-9.]+) m3 an hour.*", "$1"));
    assertEquals(hourly, said, 0.01 * hourly, no.sentence());
  }

  /** A drain must not be asked to lift water into a catch basin: common practice, no source. */
  @Test
  void aBasinWhoseWaterStandsOverTheYardFlowsBackAndIsRefused() {
    Yard yard = plane().outlet(basinWithWaterAt(10.95));
    RoutePlan plan = yard.plan();
    assertTrue(plan.routes().isEmpty());
    Rejection no = rejected(plan, "backflow");
    // The line keeps 0.6 m from the property line: its ground there is 10.888 m high.
    assertEquals(10.95 - (10 + 0.02 * 44.4), no.shortfallM().orElseThrow(), 0.003, no.sentence());
    // Yet so much lower its water would well out of the pipe on the way: the ground over that falls
    // to the basin at y = 2 m, before which the last 1.5 m count no more.
    double lower = relax(no, "outlet");
    assertEquals(10.95 - (10 + 0.02 * 3.5), lower, 0.006, no.sentence());
    assertTrue(
        no.sentence().contains(String.format(Locale.ROOT, "%.3f m lower a drain works", lower)),
        no.sentence());
    Outlet basin = yard.outlets.get(0);
    OutletLowering lowering = new OutletLowering(basin, ground(yard));
    yard.outlets.set(0, lowering.lowered(lower));
    assertFalse(yard.plan().routes().isEmpty());
    yard.outlets.set(0, lowering.lowered(lower - 0.001));
    assertTrue(yard.plan().routes().isEmpty());
  }

  private static Outlet basinWithWaterAt(double levelM) {
    return outlet("CB", Outlet.Kind.CATCH_BASIN, 2, 9.5, OptionalDouble.of(levelM), none(), none());
  }

  private static RouteGround ground(Yard yard) {
    return RouteGround.of(yard.site(), yard.ground, RouteSettings.defaults(yard.limits));
  }

  /**
   * The same for a line that was drawn. Also: what stands over no ground but that of the way is
   * told as water, not as a check that failed.
   */
  @Test
  void aDrawnLineIsToldTheLoweringThatMendsIt() {
    Yard yard = plane().outlet(basinWithWaterAt(10.95));
    Rejection no = yard.pinned("LINESTRING(20 44, 20 2)").rejected().get(0);
    assertEquals(10.95 - (10 + 0.02 * 3.5), relax(no, "outlet"), 0.006, no.sentence());
    yard.outlets.set(0, basinWithWaterAt(10.3));
    Rejection over = rejected(yard.plan(), "backflow");
    assertEquals(10.3 - (10 + 0.02 * 3.5), relax(over, "outlet"), 0.006, over.sentence());
  }

  /** Behind a ridge nothing helps but depth: no lowering of the basin is named. */
  @Test
  void whereNoLoweringHelpsNoneIsNamed() {
    Yard yard =
        yard((x, y) -> 10 + 3 * Math.max(0, 1 - Math.abs(y - 25) / 3))
            .inflow("north", 300, NORTH)
            .outlet(
                outlet(
                    "CB",
                    Outlet.Kind.CATCH_BASIN,
                    2,
                    9.5,
                    OptionalDouble.of(10.1),
                    none(),
                    none()));
    Rejection no = rejected(yard.plan(), "backflow");
    assertTrue(no.relax().isEmpty(), no.relax().toString());
    assertTrue(no.sentence().contains("no lowering of it"), no.sentence());
  }

  /** In a bank: above the usual water; a brief flood is fine, standing water silts the end up. */
  @Test
  void anEndBelowTheUsualWaterOfAStreamSiltsUpAndBelowTheFloodOnlyWaits() {
    Yard low = plane();
    low.outlet(stream(9.85, 9.9));
    List<String> said = low.plan().routes().get(0).cautions();
    double end = lastInvert(low.plan().routes().get(0));
    assertTrue(
        said.stream()
            .anyMatch(
                c ->
                    c.contains("its usual water stands")
                        && c.contains("end the pipe at 9.85 m or higher")),
        said + " at " + end);
    Yard high = plane();
    high.outlet(stream(9.6, 9.85));
    said = high.plan().routes().get(0).cautions();
    assertTrue(said.stream().noneMatch(c -> c.contains("its usual water")), said.toString());
    assertTrue(said.stream().anyMatch(c -> c.contains("in the storm its water")), said.toString());
  }

  /** The pipe is laid as high as it may, so that it ends at 9.78 m. */
  private static Outlet stream(double usualM, double floodM) {
    return outlet(
        "brook",
        Outlet.Kind.WATERWAY,
        2,
        9.5,
        OptionalDouble.of(floodM),
        none(),
        OptionalDouble.of(usualM));
  }

  private static double lastInvert(Route route) {
    List<Station> stations = route.main().stations();
    return stations.get(stations.size() - 1).invertM();
  }

  /** A dry well's end in frozen ground is flagged; one below the frost is not. */
  @Test
  void anEndThatSoaksAwayAboveTheFrostIsFlagged() {
    assertTrue(frostStands(0.762)); // 30 in
    assertFalse(frostStands(0.1));
  }

  private static boolean frostStands(double frostM) {
    Yard yard = plane().outlet("well", Outlet.Kind.DRY_WELL, 20, 12, 9.6);
    yard.soil = Given.freezing('A', OptionalDouble.of(25e-3 / 3600), frostM);
    RoutePlan plan = yard.plan();
    assertFalse(plan.routes().isEmpty(), () -> plan.rejected().toString());
    return DrainDesigner.design(
            plan.routes().get(0),
            yard.site(),
            yard.terrain(),
            yard.water(),
            Storm.of(yard.site().storm()))
        .cautions()
        .stream()
        .anyMatch(c -> c.code().equals("frost-stands"));
  }

  private static OptionalDouble none() {
    return OptionalDouble.empty();
  }

  /** An outlet south of the yard's middle. */
  private static Outlet outlet(
      String id,
      Outlet.Kind kind,
      double y,
      double invertM,
      OptionalDouble waterM,
      OptionalDouble lidM,
      OptionalDouble usualM) {
    return new Outlet(
        id, kind, new Coordinate(20, y), OptionalDouble.of(invertM), waterM, lidM, "", usualM);
  }

  private static Rejection rejected(RoutePlan plan, String code) {
    return plan.rejected().stream()
        .filter(r -> r.code().equals(code))
        .findFirst()
        .orElseThrow(() -> new AssertionError(plan.rejected().toString()));
  }

  private static boolean refuses(RoutePlan plan, String outletId, String code) {
    return plan.rejected().stream()
        .anyMatch(r -> r.outletId().equals(outletId) && r.code().equals(code));
  }

  private static double relax(Rejection no, String limit) {
    return no.relax().stream()
        .filter(r -> r.limit().equals(limit))
        .mapToDouble(Rejection.Relaxation::by)
        .findFirst()
        .orElse(Double.NaN);
  }
}
