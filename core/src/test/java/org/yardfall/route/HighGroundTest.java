package org.yardfall.route;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.site.Crossing;

/** Water does not run over a rise in a pipe: a fact of the trade (common practice, no source). */
class HighGroundTest {

  private static final LineString LINE =
      new GeometryFactory()
          .createLineString(new Coordinate[] {new Coordinate(5, 10), new Coordinate(35, 10)});

  @Test
  void aLineOverARidgeIsBrokenAtTheCrest() {
    List<LineString> parts = broken(x -> 100 - 0.1 * Math.abs(x - 20.5));
    assertEquals(2, parts.size());
    // The crest lies at x = 20.5, 15.5 m along; a gap of half a metre is left there.
    assertEquals(15.25, parts.get(0).getLength(), 0.5);
    assertEquals(14.25, parts.get(1).getLength(), 0.5);
    assertEquals(0.5, parts.get(0).distance(parts.get(1)), 1e-9);
  }

  @Test
  void aLineThatFallsOneWayStaysWhole() {
    assertEquals(List.of(LINE), broken(x -> 100 + 0.05 * x));
  }

  @Test
  void aLineThroughAHollowStaysWhole() {
    assertEquals(List.of(LINE), broken(x -> 100 + 0.1 * Math.abs(x - 20.5)));
  }

  @Test
  void aRiseLowEnoughToDigThroughIsLeft() {
    assertEquals(List.of(LINE), broken(x -> 100 - 0.005 * Math.abs(x - 20.5)));
  }

  /** A walk over the crest, from x = 19 to 22 m: both parts end 0.3 m off it. */
  @Test
  void noPartEndsUnderASlab() {
    List<LineString> parts =
        broken(
            x -> 100 - 0.1 * Math.abs(x - 20.5),
            List.of(new Crossing("walk", RouteFixtures.box(19, 5, 22, 15), 0.1, 0.1)));
    assertEquals(2, parts.size());
    assertEquals(18.7, parts.get(0).getEndPoint().getX(), 1e-6);
    assertEquals(22.3, parts.get(1).getStartPoint().getX(), 1e-6);
    assertEquals(5, parts.get(0).getStartPoint().getX(), 1e-6);
    assertEquals(35, parts.get(1).getEndPoint().getX(), 1e-6);
  }

  /** A walk that a part passes under elsewhere is passed, not cut away. */
  @Test
  void aSlabAwayFromTheBreakIsPassedUnder() {
    List<LineString> parts =
        broken(
            x -> 100 - 0.1 * Math.abs(x - 20.5),
            List.of(new Crossing("walk", RouteFixtures.box(9, 5, 11, 15), 0.1, 0.1)));
    assertEquals(2, parts.size());
    assertEquals(15.25, parts.get(0).getLength(), 0.5);
  }

  private static List<LineString> broken(DoubleUnaryOperator ground) {
    return broken(ground, List.of());
  }

  private static List<LineString> broken(DoubleUnaryOperator ground, List<Crossing> slabs) {
    GridFrame frame = new GridFrame(40, 20, 0, 20, 1);
    float[] z = new float[frame.size()];
    for (int cell = 0; cell < z.length; cell++) {
      z[cell] = (float) ground.applyAsDouble(frame.x(cell % frame.cols()));
    }
    return new HighGround(new ElevationGrid(frame, z), slabs).broken(List.of(LINE));
  }
}
