package org.yardfall.runoff;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.BitSet;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.LongRange;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.algorithm.locate.SimplePointInAreaLocator;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.Location;
import org.yardfall.elevation.GridFrame;

class CellFillTest {

  private static final GridFrame FRAME = new GridFrame(25, 20, 3, 47, 2);

  private static BitSet fill(Geometry area) {
    BitSet cells = new BitSet();
    CellFill.fill(area, FRAME, cells::set);
    return cells;
  }

  /** Oracle: JTS point-in-area at every cell centre. */
  private static void checkFill(Geometry area) {
    BitSet expected = new BitSet();
    for (int row = 0; row < FRAME.rows(); row++) {
      for (int col = 0; col < FRAME.cols(); col++) {
        Coordinate centre = new Coordinate(FRAME.x(col), FRAME.y(row));
        if (SimplePointInAreaLocator.locate(centre, area) == Location.INTERIOR) {
          expected.set(row * FRAME.cols() + col);
        }
      }
    }
    assertEquals(expected, fill(area));
  }

  @Test
  void aHoleIsLeftOut() {
    checkFill(
        Yard.geometry(
            "POLYGON ((5.1 10.2, 40.3 12.7, 38.1 40.9, 9.4 36.6, 5.1 10.2),"
                + " (15.2 20.3, 16.1 30.2, 25.3 28.7, 15.2 20.3))"));
  }

  @Test
  void whatLiesBeyondTheGridIsCutOff() {
    checkFill(Yard.geometry("POLYGON ((-50 -50, 100.3 -40, 30.1 30.7, -50 60.2, -50 -50))"));
    assertEquals(new BitSet(), fill(Yard.geometry("POLYGON ((90 90, 99 90, 99 99, 90 90))")));
  }

  @Test
  void neighboursShareNoCellEvenThroughItsCentre() {
    BitSet west = fill(Yard.geometry("POLYGON ((4 8, 14 8, 14 20, 4 20, 4 8))"));
    BitSet east = fill(Yard.geometry("POLYGON ((14 8, 24 8, 24 20, 14 20, 14 8))"));
    assertEquals(60, west.cardinality() + east.cardinality()); // 20 m · 12 m in cells of 4 m²
    west.and(east);
    assertEquals(0, west.cardinality());
  }

  @Property(tries = 200)
  void anyStarIsFilledAsItsPointsLie(@ForAll @LongRange(min = 0, max = 1_000_000) long seed) {
    Random random = new Random(seed);
    int n = 3 + random.nextInt(12);
    Coordinate[] ring = new Coordinate[n + 1];
    for (int i = 0; i < n; i++) {
      double r = 3 + 25 * random.nextDouble();
      double angle = 2 * Math.PI * i / n;
      ring[i] = new Coordinate(28 + r * Math.cos(angle), 27 + r * Math.sin(angle));
    }
    ring[n] = ring[0];
    checkFill(new GeometryFactory().createPolygon(ring));
  }
}
