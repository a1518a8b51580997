package org.yardfall.fieldwork;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.OptionalDouble;
import java.util.function.DoubleBinaryOperator;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.Polygon;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.route.Audit;
import org.yardfall.route.MadeUpRoute;
import org.yardfall.route.Route;
import org.yardfall.site.MadeUpSite;
import org.yardfall.site.Outlet;
import org.yardfall.site.Parcel;
import org.yardfall.site.Site;

/** A plan on an invented raster, held against invented shots of the same yard. */
class PlanRecheckTest {

  /** Ground that falls east at 1 %, 0.60 m above the straight route's invert. */
  private static double slope(double x, double y) {
    return 100.9 - 0.01 * x;
  }

  private static final Route PLANNED =
      FieldFixtures.route(
          FieldFixtures.line(new double[] {10, 10, 40, 10}, 100.2, new double[] {0.01}, 0.6));

  @Test
  void theSameGroundChangesNothing() {
    PlanRecheck recheck = recheck(PlanRecheckTest::slope, 99.9, PLANNED);
    assertTrue(recheck.holds(), failed(recheck));
    assertTrue(recheck.same());
    assertEquals(0, recheck.medianM(), 1e-4);
    assertEquals(0, recheck.outletM(), 1e-9);
    checkSays(recheck, "It can be built as planned.");
    checkSays(recheck, "The best drain is the same one: the decision holds.");
  }

  @Test
  void groundThatIsLowerThanTheRasterSaidTakesTheCover() {
    PlanRecheck recheck =
        recheck((x, y) -> slope(x, y) - (x > 20 && x < 26 ? 0.4 : 0), 99.9, PLANNED);
    assertFalse(recheck.holds());
    assertEquals("cover", failed(recheck));
    assertEquals(-0.4, recheck.lowestM(), 1e-3);
    assertEquals(0, recheck.medianM(), 1e-3);
    // By hand: 0.6 − 0.4 − 0.116 of cover are left of the 0.15 asked.
    checkSays(recheck, "It cannot be built as planned: cover 0.084 m, limit 0.150 m");
  }

  @Test
  void anOutletThatIsHigherThanAssumedIsSaid() {
    PlanRecheck recheck = recheck(PlanRecheckTest::slope, 99.98, PLANNED);
    assertEquals("outlet-invert", failed(recheck));
    checkSays(recheck, "Its outlet's invert is 0.080 m higher than planned.");
  }

  @Test
  void anotherBestDrainIsSaid() {
    Route other =
        FieldFixtures.route(
            FieldFixtures.line(
                new double[] {10, 10, 25, 16, 40, 10}, 100.3, new double[] {0.01, 0.01}, 0.6));
    PlanRecheck recheck = recheck(PlanRecheckTest::slope, 99.9, other);
    assertTrue(recheck.holds());
    assertFalse(recheck.same());
    assertEquals(6, recheck.apartM(), 0.1);
    assertTrue(recheck.sameKind());
    checkSays(recheck, "its line lies up to 6.000 m off: the decision holds, stake the new line");
    checkSays(recheck(PlanRecheckTest::slope, 99.9, to("CB2")), "decide anew");
  }

  private static Route to(String outletId) {
    return MadeUpRoute.to(outletId, PLANNED.main(), PLANNED.branches()).make();
  }

  @Test
  void aYardWhereNothingWorksAnyMoreIsSaid() {
    PlanRecheck recheck =
        PlanRecheck.of(PLANNED, List.of(), site(99.9), grid(PlanRecheckTest::slope), List.of());
    checkSays(recheck, "On the new ground no drain works: the decision does not hold.");
  }

  @Test
  void groundThatDoesNotReachTheWholeRouteProvesNothing() {
    PlanRecheck recheck = recheck((x, y) -> x > 30 ? Double.NaN : slope(x, y), 99.9, PLANNED);
    assertFalse(recheck.shown());
    assertFalse(recheck.holds());
    checkSays(recheck, "what is not shown is not checked");
  }

  private static PlanRecheck recheck(DoubleBinaryOperator z, double outletM, Route after) {
    return PlanRecheck.of(PLANNED, List.of(), site(outletM), grid(z), List.of(after));
  }

  private static void checkSays(PlanRecheck recheck, String expected) {
    List<String> said = recheck.sentences(FieldUnits.METRES);
    assertTrue(said.stream().anyMatch(s -> s.contains(expected)), said.toString());
  }

  private static String failed(PlanRecheck recheck) {
    return String.join(
        ", ",
        recheck.audit().checks().stream().filter(c -> !c.passed()).map(Audit.Check::name).toList());
  }

  private static ElevationGrid grid(DoubleBinaryOperator z) {
    GridFrame frame = new GridFrame(100, 40, 0, 20, 0.5);
    float[] out = new float[frame.size()];
    for (int row = 0; row < frame.rows(); row++) {
      for (int col = 0; col < frame.cols(); col++) {
        out[row * frame.cols() + col] = (float) z.applyAsDouble(frame.x(col), frame.y(row));
      }
    }
    return new ElevationGrid(frame, out);
  }

  private static Site site(double outletM) {
    Polygon lot = (Polygon) new GeometryFactory().toGeometry(new Envelope(2, 48, 2, 18));
    Outlet outlet =
        new Outlet(
            "CB1",
            Outlet.Kind.CATCH_BASIN,
            new Coordinate(40, 10),
            OptionalDouble.of(outletM),
            OptionalDouble.empty(),
            OptionalDouble.empty(),
            "");
    Parcel own = new Parcel("own", lot);
    return MadeUpSite.site()
        .lot(own)
        .parcels(List.of(own))
        .outlets(List.of(outlet))
        .drain(FieldFixtures.LIMITS)
        .make();
  }
}
