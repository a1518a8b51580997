package org.yardfall.route;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.io.ParseException;
import org.locationtech.jts.io.WKTReader;

/** How far a line must move past what it meets; every figure by plane geometry. */
class ClearingMoveTest {

  private static final String HOUSE = "POLYGON((0 0, 10 0, 10 8, 0 8, 0 0))";

  @Test
  void aLineBesideTheHouseNeedsNoMove() throws ParseException {
    check("LINESTRING(-1 -5, -1 20)", HOUSE, 0);
    check("LINESTRING(0 -5, 0 20)", HOUSE, 0);
  }

  @Test
  void aLineThroughTheHousePassesItsNearerSide() throws ParseException {
    check("LINESTRING(5 -5, 5 20)", HOUSE, 5);
    check("LINESTRING(5 20, 5 -5)", HOUSE, 5);
    check("LINESTRING(7 -5, 7 20)", HOUSE, 3);
    check("LINESTRING(-5 4, 20 4)", HOUSE, 4);
  }

  /** A corner cut off at 45 degrees with legs of 1 m: its tip is half the chord of √2 away. */
  @Test
  void aLineAcrossACornerPassesItsTip() throws ParseException {
    check("LINESTRING(9 -1, 12 2)", "POLYGON((0 -1, 11 -1, 11 8, 0 8, 0 -1))", Math.sqrt(2));
    check("LINESTRING(8 -1, 11 2)", HOUSE, Math.sqrt(0.5));
  }

  @Test
  void aLineThatStraysIntoAWideParcelComesBack() throws ParseException {
    check(
        "LINESTRING(0 10, 0.5 12, 0.5 20, 0 22)",
        "POLYGON((0 -50, 90 -50, 90 90, 0 90, 0 -50))",
        0.5);
  }

  /** Only the way out counts for an end that lies within. */
  @Test
  void anEndWithinComesOutTheShortestWay() throws ParseException {
    check("LINESTRING(5 20, 5 6)", HOUSE, 2);
  }

  @Test
  void twoHousesTakeTheGreaterMove() throws ParseException {
    check(
        "LINESTRING(-5 1, 40 1)",
        "MULTIPOLYGON(((0 0, 10 0, 10 8, 0 8, 0 0)), ((20 -2, 30 -2, 30 8, 20 8, 20 -2)))",
        3);
  }

  @Test
  void noMoveLeadsPastAClosedFence() throws ParseException {
    check(
        "LINESTRING(5 5, 5 -5)",
        "POLYGON((0 0, 10 0, 10 10, 0 10, 0 0), (1 1, 9 1, 9 9, 1 9, 1 1))",
        Double.POSITIVE_INFINITY);
  }

  /** A disc of 8 m at great coordinates, as a map has them: past it by its nearer side. */
  @Test
  void aLineAcrossADiscPassesItWhereverItRuns() throws ParseException {
    Geometry disc = new WKTReader().read("POINT(500020 5000025)").buffer(8, 64);
    for (double off = -7.9; off < 8; off += 0.0703) {
      for (double deg = 0; deg < 180; deg += 18) {
        double ux = Math.cos(Math.toRadians(deg));
        double uy = Math.sin(Math.toRadians(deg));
        double x = 500_020 - off * uy;
        double y = 5_000_025 + off * ux;
        LineString line =
            disc.getFactory()
                .createLineString(
                    new Coordinate[] {
                      new Coordinate(x - 20 * ux, y - 20 * uy),
                      new Coordinate(x + 20 * ux, y + 20 * uy)
                    });
        assertEquals(8 - Math.abs(off), ClearingMove.ofM(line, disc), 0.003, off + ", " + deg);
      }
    }
  }

  private static void check(String line, String shape, double moveM) throws ParseException {
    WKTReader wkt = new WKTReader();
    assertEquals(moveM, ClearingMove.ofM((LineString) wkt.read(line), wkt.read(shape)), 1e-9);
  }
}
