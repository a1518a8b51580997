package org.yardfall.runoff;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.elevation.Terrain;
import org.yardfall.site.Site;
import org.yardfall.water.StandingWater;
import org.yardfall.water.StandingWaterFinder;
import org.yardfall.water.SurfaceWater;
import org.yardfall.water.SurfaceWaterFinder;

/**
 * The ledger on even ground that slopes in any direction: water runs straight down the slope, so
 * what crosses each side of the lot is what falls on the strip above it. Closed form; invented
 * ground.
 */
class LedgerOnPlanesTest {

  private static final double SIDE_M = 160;
  private static final double RAIN_M = 0.08;

  /** An even slope of 2 % down to the south, turned counter-clockwise about the middle. */
  private static Terrain plane(double degrees, double cellM) {
    double a = Math.toRadians(degrees);
    int n = (int) (SIDE_M / cellM);
    GridFrame frame = new GridFrame(n, n, 0, SIDE_M, cellM);
    float[] z = new float[frame.size()];
    for (int c = 0; c < z.length; c++) {
      z[c] = (float) (10 + 0.02 * (Math.cos(a) * frame.y(c / n) - Math.sin(a) * frame.x(c % n)));
    }
    return new Terrain(
        new ElevationGrid(frame, z), List.of(), 0.0001, true, 0, "", List.of(), List.of());
  }

  /** A box of the slope's own axes: metres to the left and right of (80, 70), below and above. */
  private static String box(double degrees, double left, double right, double low, double high) {
    double a = Math.toRadians(degrees);
    double[][] corners = {{left, low}, {right, low}, {right, high}, {left, high}, {left, low}};
    StringBuilder wkt = new StringBuilder();
    for (double[] p : corners) {
      wkt.append(wkt.isEmpty() ? "POLYGON ((" : ", ")
          .append(80 + p[0] * Math.cos(a) - p[1] * Math.sin(a))
          .append(' ')
          .append(70 + p[0] * Math.sin(a) + p[1] * Math.cos(a));
    }
    return wkt.append("))").toString();
  }

  private static InflowLedger ledger(double degrees, double cellM, double turned) {
    Terrain terrain = plane(degrees, cellM);
    Site site =
        Yard.slope(4, 4, 1, 0.02)
            .lot("7", box(turned, -15, 15, -20, 20))
            .parcel("above", box(turned, -15, 15, 20, 60))
            .parcel("left", box(turned, -45, -15, -20, 60))
            .parcel("right", box(turned, 15, 45, -20, 60))
            .site();
    SurfaceWater water = SurfaceWaterFinder.find(terrain, site);
    return InflowLedgerFinder.find(site, terrain, water, InflowLedgerFinderTest.storm(RAIN_M));
  }

  private static double from(InflowLedger ledger, String parcel) {
    return ledger.inflow().stream()
        .filter(f -> f.neighbour().equals(parcel))
        .mapToDouble(BoundaryFlow::areaM2)
        .sum();
  }

  /**
   * The lot turned with the slope: all comes from above, nothing from either side and nothing goes
   * there. A way from cell to cell is true to a cell and a half, so each side line may be off by as
   * many threads, each a cell wide and as long as the slope.
   */
  @ParameterizedTest
  @CsvSource({
    "0, 1",
    "5, 1",
    "10, 1",
    "15, 1",
    "20, 1",
    "25, 1",
    "30, 1",
    "35, 1",
    "40, 1",
    "45, 1",
    "60, 1",
    "75, 1",
    "110, 1",
    "160, 1",
    "215, 1",
    "290, 1",
    "335, 1",
    "5, 0.5",
    "10, 0.5",
    "20, 0.5",
    "30, 0.5",
    "40, 0.5",
    "120, 0.5",
    "230, 0.5"
  })
  void besideALotThatFollowsTheSlopeNothingCrosses(double degrees, double cellM) {
    InflowLedger ledger = ledger(degrees, cellM, degrees);
    double longest = SIDE_M * Math.sqrt(2);
    double thread = cellM * longest / 2; // from the middle up to a corner of the ground
    assertTrue(from(ledger, "left") <= 1.6 * thread, ledger.inflow().toString());
    assertTrue(from(ledger, "right") <= 1.6 * thread, ledger.inflow().toString());
    double above = from(ledger, "above");
    // On the parcel above lie 30 by 40 m of it, whatever comes from farther up.
    double onIt =
        ledger.inflow().stream()
            .filter(f -> f.neighbour().equals("above"))
            .mapToDouble(f -> f.areaByParcelM2().getOrDefault("above", 0.0))
            .sum();
    assertEquals(1200, onIt, 2 * 40 * 1.5 * cellM);
    assertTrue(above >= onIt);
    BoundaryFlow main = ledger.inflow().get(0);
    assertEquals("above", main.neighbour());
    double bearing = (180 - degrees + 360) % 360;
    double off = Math.abs((main.bearingDeg() - bearing + 540) % 360 - 180);
    assertTrue(off < 8, main.bearingDeg() + " for " + bearing);
    main.time().reaches().forEach(reach -> assertEquals(0.02, reach.slope(), 0.0002));
    assertEquals(0, ledger.balance().errorM3(), 1e-9 * ledger.balance().ownRainM3());
  }

  /**
   * The lot square to the grid on an oblique slope: each of the two upper sides gets what falls on
   * the strip above it, the other two nothing. With the slope down to the south-east by an angle
   * from south, the west side of 40 m gets a strip 40 sin wide, the north side of 30 m one of 30
   * cos; their lengths end at the edge of the ground.
   */
  @ParameterizedTest
  @CsvSource({"10, 1", "20, 1", "30, 1", "40, 1", "50, 1", "70, 1", "30, 0.5", "60, 0.5"})
  void aLotSquareToTheGridGetsTheStripAboveEachSide(double degrees, double cellM) {
    InflowLedger ledger = ledger(degrees, cellM, 0);
    double a = Math.toRadians(degrees);
    double west = 0;
    double north = 0;
    double step = 0.05;
    for (double t = step / 2; t < 40; t += step) {
      west += step * Math.sin(a) * toEdge(65, 50 + t, a);
    }
    for (double t = step / 2; t < 30; t += step) {
      north += step * Math.cos(a) * toEdge(65 + t, 90, a);
    }
    double thread = cellM * SIDE_M;
    assertEquals(west, from(ledger, "left"), 1.5 * thread, ledger.inflow().toString());
    assertEquals(north, from(ledger, "above"), 1.5 * thread, ledger.inflow().toString());
    assertEquals(0, from(ledger, "right"), 0.01 * thread);
    for (String parcel : List.of("left", "above")) {
      List<BoundaryFlow> sheets =
          ledger.inflow().stream().filter(f -> f.neighbour().equals(parcel)).toList();
      BoundaryFlow sheet = sheets.get(0);
      double side = parcel.equals("left") ? 40 : 30;
      double slant = parcel.equals("left") ? Math.sin(a) : Math.cos(a);
      double all = sheets.stream().mapToDouble(BoundaryFlow::areaM2).sum();
      assertTrue(sheet.areaM2() > 0.9 * all, "one sheet, not a crossing here and there: " + sheets);
      assertEquals(side, sheet.widthM(), 3 * cellM / slant);
      assertEquals(180 - degrees, sheet.bearingDeg(), 1);
      double fromCorner = parcel.equals("left") ? 90 - sheet.at().y : sheet.at().x - 65;
      assertEquals(side / 2, fromCorner, 0.2 * side, "the arrow is in the middle");
    }
  }

  /**
   * A cone with its top in the middle and a lot between two of its rays and two rings: from above
   * comes the sector between the rays, nothing from either side. Near the top a path may begin a
   * cell and a half beside its ray, which on the way down grows into a share of the sector.
   */
  @ParameterizedTest
  @CsvSource({"7", "22", "36", "58", "101", "160", "207", "250", "333"})
  void onAConeALotBetweenTwoRaysGetsTheSectorAbove(double degrees) {
    double cellM = 0.5;
    int n = (int) (SIDE_M / cellM);
    GridFrame frame = new GridFrame(n, n, 0, SIDE_M, cellM);
    float[] z = new float[frame.size()];
    for (int c = 0; c < z.length; c++) {
      z[c] = (float) (10 - 0.03 * Math.hypot(frame.x(c % n) - 80, frame.y(c / n) - 80));
    }
    Terrain terrain =
        new Terrain(
            new ElevationGrid(frame, z), List.of(), 0.0001, true, 0, "", List.of(), List.of());
    Site site =
        Yard.slope(4, 4, 1, 0.02)
            .lot("7", sector(degrees - 15, degrees + 15, 40, 70))
            .parcel("above", sector(degrees - 15, degrees + 15, 1, 40))
            .parcel("left", sector(degrees + 15, degrees + 45, 1, 70))
            .parcel("right", sector(degrees - 45, degrees - 15, 1, 70))
            .site();
    InflowLedger ledger =
        InflowLedgerFinder.find(
            site,
            terrain,
            SurfaceWaterFinder.find(terrain, site),
            InflowLedgerFinderTest.storm(RAIN_M));
    double sector = Math.toRadians(30) * 40 * 40 / 2;
    double thread = 1.5 * cellM * 40;
    assertEquals(sector, from(ledger, "above"), 2 * thread, ledger.inflow().toString());
    assertEquals(0, from(ledger, "left"), thread, ledger.inflow().toString());
    assertEquals(0, from(ledger, "right"), thread, ledger.inflow().toString());
    assertEquals("above", ledger.inflow().get(0).neighbour());
  }

  /**
   * A ridge across the ground, straight at an angle from east, falling at 2 % both ways, and a lot
   * square to the grid south of it: each side gets the strip between itself and the ridge, and
   * nothing of what lies behind the ridge. Parallel to the lot's upper side (0 degrees) that is a
   * box of 30 by 25 m and nothing from the sides.
   */
  @ParameterizedTest
  @CsvSource({"0, 1", "15, 1", "30, 1", "45, 1", "15, 0.5", "30, 0.5"})
  void behindARidgeNothingComes(double degrees, double cellM) {
    double a = Math.toRadians(degrees);
    int n = (int) (SIDE_M / cellM);
    GridFrame frame = new GridFrame(n, n, 0, SIDE_M, cellM);
    float[] z = new float[frame.size()];
    for (int c = 0; c < z.length; c++) {
      z[c] = (float) (10 - 0.02 * Math.abs(belowRidge(frame.x(c % n), frame.y(c / n), a)));
    }
    InflowLedger ledger = ledger(ground(frame, z), square());
    double north = 0;
    double west = 0;
    double step = 0.05;
    for (double t = step / 2; t < 30; t += step) {
      north += step * Math.cos(a) * Math.min(belowRidge(65 + t, 90, a), toEdge(65 + t, 90, a));
    }
    for (double t = step / 2; t < 40; t += step) {
      west += step * Math.sin(a) * Math.min(belowRidge(65, 50 + t, a), toEdge(65, 50 + t, a));
    }
    assertTrue(degrees > 0 || Math.abs(north - 30 * 25) < 1e-6);
    double thread = 1.5 * cellM * 75;
    assertEquals(north, from(ledger, "above"), thread, ledger.inflow().toString());
    assertEquals(west, from(ledger, "left"), thread, ledger.inflow().toString());
    assertEquals(0, from(ledger, "right"), 0.01 * thread, ledger.inflow().toString());
  }

  /** How far a point lies south of a ridge that goes through (80, 115), across the ridge. */
  private static double belowRidge(double x, double y, double a) {
    return (115 - y) * Math.cos(a) + (x - 80) * Math.sin(a);
  }

  /**
   * A slope of 2 % to the south and, on the neighbour's side of the line, a bank 40 m long with
   * wings up the slope and a notch 0.2 m over its toe: the water stands against the bank in a wedge
   * of 0.2²/(2 · 0.02) m² in section, 40 m³, before it spills over the line.
   */
  @ParameterizedTest
  @CsvSource({"0.11", "0.03"})
  void whatStandsAgainstABankComesOverTheLineOnlyOnceItSpills(double rainM) {
    Terrain terrain = bank();
    Site site = square();
    SurfaceWater water = SurfaceWaterFinder.find(terrain, site);
    Storm storm = InflowLedgerFinderTest.storm(rainM);
    double[] depth = SurfaceCover.of(site, water).runoffDepthM(rainM);
    StandingWater standing = StandingWaterFinder.after(water, depth, SIDE_M * SIDE_M * rainM);
    InflowLedger ledger =
        InflowLedgerFinder.of(site, terrain, water, storm, Optional.of(standing)).find();
    double ponded = standing.ponds().stream().mapToDouble(StandingWater.Pond::volumeM3).sum();
    double arrives = depth[0] * 40 * (SIDE_M - 92);
    double held = Math.min(arrives, 40);
    // The bank and its wings, 2 m and 1 m wide, shed to either side.
    double bank = depth[0] * (40 * 2 + 2 * 38 * 1);
    assertEquals(held, ponded, 0.01 * held + bank);
    assertEquals(
        arrives - held, ledger.balance().inflowM3(), 0.01 * held + bank, () -> ledger.toString());
    assertEquals(0, ledger.balance().errorM3(), 1e-9 * ledger.balance().ownRainM3());
    if (arrives > held) {
      BoundaryFlow spill = ledger.inflow().get(0);
      assertEquals("above", spill.neighbour());
      assertTrue(spill.concentrated());
      assertEquals(80, spill.at().x, 2);
    }
  }

  /**
   * The same wedge where the line runs through it, 5 m from the bank: over the 30 m of the lot's
   * width stand (0.2 · 5 − 0.02 · 5² / 2) · 30 = 22.5 m³ on the lot and the other 17.5 beyond. It
   * is said, since none of it crosses the line.
   */
  @Test
  void whatStandsAcrossTheLineIsSaid() {
    Terrain terrain = bank();
    Site site = lotUpTo(97);
    SurfaceWater water = SurfaceWaterFinder.find(terrain, site);
    double[] depth = SurfaceCover.of(site, water).runoffDepthM(0.11);
    StandingWater standing = StandingWaterFinder.after(water, depth, SIDE_M * SIDE_M * 0.11);
    InflowLedger ledger =
        InflowLedgerFinder.of(
                site, terrain, water, InflowLedgerFinderTest.storm(0.11), Optional.of(standing))
            .find();
    String said =
        ledger.warnings().stream().filter(w -> w.contains("lies across")).findFirst().orElseThrow();
    String[] m3 =
        said.replaceAll(".*storm ([0-9.]+) m3 .* and ([0-9.]+) m3 .*", "$1 $2").split(" ", -1);
    assertEquals(22.5, Double.parseDouble(m3[0]), 0.25, said);
    assertEquals(17.5, Double.parseDouble(m3[1]), 0.25, said);
  }

  private static Terrain bank() {
    double cellM = 0.5;
    int n = (int) (SIDE_M / cellM);
    GridFrame frame = new GridFrame(n, n, 0, SIDE_M, cellM);
    float[] z = new float[frame.size()];
    for (int c = 0; c < z.length; c++) {
      double x = frame.x(c % n);
      double y = frame.y(c / n);
      boolean bank = y > 90 && y < 92 && x > 60 && x < 100;
      boolean wing = y > 90 && y < 130 && x > 59 && x < 101 && (x < 60 || x > 100);
      boolean notch = bank && x > 79 && x < 81;
      double toe = 10 + 0.02 * 92;
      z[c] = (float) (notch ? toe + 0.2 : bank ? toe + 0.5 : 10 + 0.02 * y + (wing ? 1 : 0));
    }
    return ground(frame, z);
  }

  private static Terrain ground(GridFrame frame, float[] z) {
    return new Terrain(
        new ElevationGrid(frame, z), List.of(), 0.0001, true, 0, "", List.of(), List.of());
  }

  private static Site square() {
    return lotUpTo(90);
  }

  private static Site lotUpTo(double northM) {
    return Yard.slope(4, 4, 1, 0.02)
        .lot("7", box(0, -15, 15, -20, northM - 70))
        .parcel("above", box(0, -15, 15, northM - 70, 60))
        .parcel("left", box(0, -45, -15, -20, 60))
        .parcel("right", box(0, 15, 45, -20, 60))
        .site();
  }

  private static InflowLedger ledger(Terrain terrain, Site site) {
    return InflowLedgerFinder.find(
        site,
        terrain,
        SurfaceWaterFinder.find(terrain, site),
        InflowLedgerFinderTest.storm(RAIN_M));
  }

  /** The ground between two rays from the middle and two rings, in degrees and metres. */
  private static String sector(double from, double to, double inner, double outer) {
    StringBuilder wkt = new StringBuilder("POLYGON ((");
    for (double a = from; a <= to; a++) {
      point(wkt, a, outer).append(", ");
    }
    for (double a = to; a >= from; a--) {
      point(wkt, a, inner).append(", ");
    }
    return point(wkt, from, outer).append("))").toString();
  }

  private static StringBuilder point(StringBuilder wkt, double degrees, double radius) {
    double a = Math.toRadians(degrees);
    return wkt.append(80 + radius * Math.cos(a)).append(' ').append(80 + radius * Math.sin(a));
  }

  /** How far the ground reaches from a point straight up the slope. */
  private static double toEdge(double x, double y, double a) {
    return Math.min((SIDE_M - y) / Math.cos(a), a == 0 ? SIDE_M : x / Math.sin(a));
  }
}
