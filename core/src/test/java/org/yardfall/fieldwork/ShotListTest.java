package org.yardfall.fieldwork;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.stream.Collectors;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.geotools.referencing.crs.DefaultGeographicCRS;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.yardfall.route.DrainLine;
import org.yardfall.route.Route;
import org.yardfall.route.Station;
import org.yardfall.site.CrsLookup;
import org.yardfall.site.DrainLimits;
import org.yardfall.site.Outlet;
import org.yardfall.site.PlaneTransform;
import org.yardfall.site.WorkingCrs;
import org.yardfall.water.LowSpot;
import org.yardfall.water.MadeUpLowSpot;

/** Where a shot decides, on invented routes. */
class ShotListTest {

  private static final DrainLimits LIMITS = FieldFixtures.LIMITS;
  private static final WorkingCrs UTM = CrsLookup.of("EPSG:26915");
  private static final double EAST = 480_000;
  private static final double NORTH = 4_970_000;

  @Test
  void outletUpperEndsAndCrossingsAreListed() {
    Route route =
        FieldFixtures.moved(
            FieldFixtures.route(
                FieldFixtures.bored(FieldFixtures.bentRoute().main(), 12, 14),
                FieldFixtures.bentRoute().branches().get(0)),
            EAST,
            NORTH);
    ShotList list = ShotList.of(UTM, LIMITS, 0.05, List.of(), List.of(), List.of(route));
    assertEquals(
        List.of(
            "P1 invert of outlet CB1: all falls to it",
            "P2 upper end of the main line",
            "P3 crossing: slab and what lies under it",
            "P4 upper end of branch 1"),
        list.places().stream().map(p -> p.id() + " " + String.join("; ", p.why())).toList());
    ShotPlace outlet = list.places().get(0);
    assertEquals(ShotPlace.What.OUTLET_INVERT, outlet.what());
    assertEquals(100.6, outlet.expectedM(), 1e-9);
    assertTrue(Double.isNaN(outlet.lowestM()));
    // By hand: at the upper end the invert may be 101.60 − 0.15 − 0.116 = 101.334; at 1 % over 30 m
    // it needs 0.30 of fall. At the outlet itself: 101.20 − 0.266 = 100.934, the tighter.
    assertEquals(100.934, outlet.highestM(), 1e-9);
    ShotPlace top = list.places().get(1);
    assertEquals(101.6, top.expectedM(), 1e-9);
    assertEquals(101.6 - (101.334 - 100.9), top.lowestM(), 1e-9);
  }

  @Test
  void anOutletLowerThanThePipesEndIsExpectedWhereItIs() {
    // The same main line; its outlet's invert lies 0.50 m below the pipe's end.
    Route route = FieldFixtures.moved(FieldFixtures.bentRoute(), EAST, NORTH);
    Outlet basin =
        new Outlet(
            route.outletId(),
            Outlet.Kind.CATCH_BASIN,
            new Coordinate(EAST, NORTH),
            OptionalDouble.of(100.1),
            OptionalDouble.empty(),
            OptionalDouble.empty(),
            "");
    List<ShotPlace> places =
        ShotList.of(UTM, LIMITS, 0.05, List.of(basin), List.of(), List.of(route)).places();
    assertEquals(100.1, places.get(0).expectedM(), 1e-9);
    assertEquals(100.934, places.get(0).highestM(), 1e-9); // the ground's limit, as above
    // By hand: at the top the invert may be 101.334 and must be 100.1 + 30 x 1 % = 100.4.
    assertEquals(101.6 - (101.334 - 100.4), places.get(1).lowestM(), 1e-9);
  }

  @Test
  void aStretchWhereTheAccuracyDecidesGivesOnePlaceAtItsWorst() {
    // Ground that dips at 10 m so far that 30 mm of leeway are left there.
    DrainLine flat =
        dipped(
            FieldFixtures.line(new double[] {0, 0, 20, 0}, 100, new double[] {0.01}, 0.5),
            10,
            0.204);
    Route route = FieldFixtures.moved(FieldFixtures.route(flat), EAST, NORTH);
    List<ShotPlace> places =
        ShotList.of(UTM, LIMITS, 0.05, List.of(), List.of(), List.of(route)).places();
    List<ShotPlace> doubtful =
        places.stream().filter(p -> p.why().get(0).startsWith("ground a little lower")).toList();
    assertEquals(1, doubtful.size());
    assertEquals(EAST + 10, doubtful.get(0).at().x, 1e-6);
    assertEquals(0.030, doubtful.get(0).expectedM() - doubtful.get(0).lowestM(), 1e-9);
    assertEquals(
        0,
        ShotList.of(UTM, LIMITS, 0.01, List.of(), List.of(), List.of(route)).places().stream()
            .filter(p -> p.why().get(0).startsWith("ground a little"))
            .count());
  }

  @Test
  void lowSpotsOnTheWayAreShotWhereTheySpill() {
    Route route = FieldFixtures.moved(FieldFixtures.bentRoute(), EAST, NORTH);
    ShotList list =
        ShotList.of(
            UTM,
            LIMITS,
            0.05,
            List.of(),
            List.of(spot("L1", 5, 0.5), spot("L2", 5, 30)),
            List.of(route));
    List<ShotPlace> spills =
        list.places().stream().filter(p -> p.why().get(0).contains("spills")).toList();
    assertEquals(1, spills.size());
    assertEquals("low spot L1 spills here", spills.get(0).why().get(0));
    assertEquals(101.40 - 0.12, spills.get(0).lowestM(), 1e-9);
    assertTrue(Double.isNaN(spills.get(0).highestM()));
  }

  @Test
  void placesThatRoutesShareAreOne() {
    Route first = FieldFixtures.moved(FieldFixtures.bentRoute(), EAST, NORTH);
    ShotList once = ShotList.of(UTM, LIMITS, 0.05, List.of(), List.of(), List.of(first));
    ShotList twice = ShotList.of(UTM, LIMITS, 0.05, List.of(), List.of(), List.of(first, first));
    assertEquals(once.places(), twice.places());
  }

  /** Longitude and latitude, projected anew the other way, come back to the place. */
  @Test
  void thePhonesCoordinatesAreThoseOfThePlace() {
    Route route = FieldFixtures.moved(FieldFixtures.bentRoute(), EAST, NORTH);
    for (ShotPlace p :
        ShotList.of(UTM, LIMITS, 0.05, List.of(), List.of(), List.of(route)).places()) {
      Coordinate back = PlaneTransform.toPlane(DefaultGeographicCRS.WGS84, UTM).apply(p.wgs84());
      assertEquals(0, back.distance(p.at()), 1e-4);
      // Zone 15 runs from 96 to 90 degrees west.
      assertTrue(p.wgs84().x > -96 && p.wgs84().x < -90 && p.wgs84().y > 44 && p.wgs84().y < 46);
    }
  }

  @Test
  void theTableIsInTheReadersUnits() {
    Route route = FieldFixtures.moved(FieldFixtures.bentRoute(), EAST, NORTH);
    String csv =
        ShotList.of(UTM, LIMITS, 0.05, List.of(), List.of(), List.of(route)).csv(FieldUnits.FEET);
    assertTrue(
        csv.startsWith(
            "id,hold_rod_on,x,y,longitude,latitude,expected_ft,works_from_ft,works_to_ft,why,routes"));
    assertTrue(csv.contains("P1,outlet invert,480020.000,4970010.000,-93.2"), csv);
    // 100.6 m and 100.934 m.
    assertTrue(csv.contains(",330.05,,331.15,"), csv);
  }

  /** Leeway against a search that lays the highest line anew on changed ground. */
  @Property(tries = 200, seed = "20261125")
  void leewayEndsExactlyWhereNoLineFalls(@ForAll @IntRange(max = 1_000_000) int seed) {
    Random random = new Random(seed);
    List<Station> stations = new ArrayList<>();
    double s = 0;
    for (int i = 0; i < 8; i++) {
      double ground = 100 - 0.012 * s + random.nextDouble(-0.12, 0.12);
      stations.add(
          new Station(
              s,
              s,
              0,
              ground,
              ground - 0.6,
              0.6 - LIMITS.pipeOutsideM(),
              0.6,
              0.01,
              random.nextInt(6) == 0 ? Station.Span.BORED : Station.Span.OPEN));
      s += random.nextDouble(0.5, 6);
    }
    double endM = stations.get(7).groundM() - random.nextDouble(0.4, 1.1);
    double[] change = new double[8];
    if (!falls(stations, change, endM)) {
      return;
    }
    Leeway leeway = leeway(stations, endM);
    for (int i = 0; i < 8; i++) {
      checkEdge(stations, i, -1, leeway.lowerM(i), endM);
      checkEdge(stations, i, 1, leeway.higherM(i), endM);
    }
    assertTrue(falls(stations, change, endM + leeway.endHigherM() - 1e-6));
    assertFalse(falls(stations, change, endM + leeway.endHigherM() + 1e-6));
  }

  private static Leeway leeway(List<Station> stations, double endM) {
    List<Coordinate> ends = List.of(new Coordinate(0, 0), new Coordinate(1, 0));
    return new Leeway(
        PlannedLine.of(FieldFixtures.route(new DrainLine(ends, stations))).get(0), LIMITS, endM);
  }

  private static void checkEdge(
      List<Station> stations, int i, int sign, double leewayM, double endM) {
    double[] change = new double[stations.size()];
    if (Double.isInfinite(leewayM)) {
      return;
    }
    change[i] = sign * Math.max(0, leewayM - 1e-6);
    assertTrue(falls(stations, change, endM), i + " works within " + leewayM);
    change[i] = sign * (leewayM + 1e-6);
    assertFalse(falls(stations, change, endM), i + " fails beyond " + leewayM);
  }

  private static boolean falls(List<Station> stations, double[] change, double endM) {
    double invert = Double.POSITIVE_INFINITY;
    for (int i = 0; i < stations.size(); i++) {
      if (i > 0) {
        invert -= LIMITS.minGrade() * (stations.get(i).stationM() - stations.get(i - 1).stationM());
      }
      double ground = stations.get(i).groundM() + change[i];
      invert = Math.min(invert, LIMITS.highestInvertM(ground));
      boolean open = stations.get(i).span() == Station.Span.OPEN;
      if (open && invert < LIMITS.lowestInvertM(ground)) {
        return false;
      }
    }
    return invert >= endM;
  }

  private static DrainLine dipped(DrainLine line, double at, double byM) {
    return new DrainLine(
        line.vertices(),
        line.stations().stream()
            .map(
                t ->
                    Math.abs(t.stationM() - at) > 0.01
                        ? t
                        : new Station(
                            t.stationM(),
                            t.x(),
                            t.y(),
                            t.groundM() - byM,
                            t.invertM(),
                            t.coverM() - byM,
                            t.depthM() - byM,
                            t.grade(),
                            t.span()))
            .collect(Collectors.toList()));
  }

  private static LowSpot spot(String id, double x, double y) {
    Coordinate at = new Coordinate(EAST + x, NORTH + y);
    return MadeUpLowSpot.of(
        id,
        new GeometryFactory().createPoint(at).buffer(1),
        at,
        101.28,
        101.40,
        new Coordinate(EAST + x + 2, NORTH + y + 3),
        3,
        0.2,
        100);
  }
}
