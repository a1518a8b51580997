package org.yardfall.layer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;

/**
 * The gravity reach as it is handed out, on level ground at 10 m, where all of it is arithmetic: at
 * a distance d from the basin the lowest invert is 9.35 m + 1 % of d, under 6 in of cover and a
 * pipe of 4.6 in outside. The basin's row of cells lies straight before it; off that row the grid
 * measures up to 2.75 % more than the straight way.
 */
class ReachLayerTest {

  private static final double INVERT_M = 9.35;
  private static final double GRADE = 0.01;
  private static final double ERROR = 0.0275;
  private static final double X = 1.25;
  private static final double Y = 10.25;

  @TempDir private Path folder;
  private Result result;
  private double highestM;

  @BeforeEach
  void plan() throws IOException {
    result =
        new PlannedYard(folder, 60, 20, (x, y) -> 10)
            .lot(0, 0, 60, 20)
            .with("outlets: [ { id: CB1, kind: catch-basin, at: AT, invert: 9.35 m } ]", X, Y)
            .with(
                "drain: { min-grade: 1 %, min-cover: 6 in, max-depth: 4 ft, setback: 0 m, pipe: 4 in }")
            .plan();
    highestM = result.site().drain().highestInvertM(10);
    assertEquals(10 - 0.1524 - 0.11684, highestM, 1e-4);
  }

  /** What is lacking in metres at a distance from the basin; negative where there is room. */
  private double lacksM(double awayM) {
    return INVERT_M + GRADE * awayM - highestM;
  }

  @Test
  void eachCellTellsItsLowestInvertAndTheRoomAboveIt() throws IOException {
    RasterLayers.writeReach(result, folder);
    PlainTiff inverts = new PlainTiff(folder.resolve("rasters/reach_invert.tif"));
    float[] invert = inverts.cells();
    float[] room = new PlainTiff(folder.resolve("rasters/reach_room.tif")).cells();
    double[] corner = inverts.numbers(33922);
    int cols = (int) inverts.numbers(256)[0];
    int seen = 0;
    for (int cell = 0; cell < invert.length; cell++) {
      double x = corner[3] - PlannedYard.EAST + (cell % cols + 0.5) * 0.5;
      int row = cell / cols;
      double y = corner[4] - PlannedYard.NORTH - (row + 0.5) * 0.5;
      double away = Math.hypot(x - X, y - Y);
      if (lacksM(away * (1 + ERROR)) < 0) {
        assertTrue(invert[cell] >= INVERT_M + GRADE * away - 1e-4, x + ", " + y);
        assertTrue(invert[cell] <= INVERT_M + GRADE * away * (1 + ERROR) + 1e-4, x + ", " + y);
        assertEquals(highestM - invert[cell], room[cell], 1e-4);
        seen++;
      } else if (lacksM(away) > 1e-4) {
        assertEquals(-9999, invert[cell], x + ", " + y);
        assertEquals(-9999, room[cell]);
      }
    }
    assertTrue(seen > 1500, "" + seen);
  }

  /** Every area: where it lies, its lowest inverts and room if an outlet is reached from there. */
  @Test
  void eachAreaTellsItsOutletAndLowestInvertsOrWhatIsLacking() {
    Layer reach = ReachLayer.of(result);
    double reached = 0;
    double lacking = 0;
    for (Feature feature : reach.features()) {
      double[] away = away(feature.geometry());
      if ("CB1".equals(value(reach, feature, "outlet"))) {
        reached += feature.geometry().getArea();
        double low = number(reach, feature, "invert_lo");
        double high = number(reach, feature, "invert_hi");
        // the nearest centre lies within half a cell's diagonal of the outline
        assertTrue(low >= INVERT_M + GRADE * away[0] - 1e-3, "" + low);
        assertTrue(low <= INVERT_M + GRADE * (away[0] + 0.36) * (1 + ERROR) + 1e-3, "" + low);
        assertTrue(high <= INVERT_M + GRADE * away[1] * (1 + ERROR) + 1e-4);
        assertTrue(highestM - high >= number(reach, feature, "room_lo_m") - 1e-3);
        assertNull(value(reach, feature, "by_outlet"));
      } else {
        lacking += feature.geometry().getArea();
        assertNull(value(reach, feature, "invert_lo"));
        // a ladder's rung is enough at every place, and the one below it at none
        double by = number(reach, feature, "by_outlet");
        assertTrue(lacksM(away[1]) <= by + 0.01, by + " at " + away[1]);
        assertTrue(lacksM(away[0] * (1 + ERROR)) >= (by > 0.15 ? by / 2 : 0) - 0.01, "" + by);
        double grade = number(reach, feature, "to_grade");
        assertTrue(INVERT_M + grade * away[1] <= highestM + 0.005, grade + " at " + away[1]);
        assertNull(value(reach, feature, "by_depth")); // nothing lies too deep
        if (value(reach, feature, "by_cover") != null) {
          assertTrue(lacksM(away[1]) <= number(reach, feature, "by_cover") + 0.01);
        } else {
          assertTrue(lacksM(away[0] * (1 + ERROR)) >= 0.1524 - 0.01, "" + away[0]);
        }
      }
    }
    // the reach ends (highest - 9.35) / 1 % = 38.1 m away
    double ends = X + (highestM - INVERT_M) / GRADE;
    assertEquals(ends * 20, reached, 0.05 * reached);
    assertEquals((60 - ends) * 20, lacking, 0.08 * lacking);
  }

  @Test
  void theContourOfRoomLiesWhereThatRoomIs() {
    Layer lines = ReachLayer.contours(result);
    assertTrue(lines.features().size() >= 1);
    for (Feature feature : lines.features()) {
      double room = number(lines, feature, "room_m");
      assertEquals(room + 10 - highestM, number(lines, feature, "deepest_m"), 1e-3);
      for (Coordinate c : feature.geometry().getCoordinates()) {
        double away = Math.hypot(c.x - PlannedYard.EAST - X, c.y - PlannedYard.NORTH - Y);
        double here = -lacksM(away);
        assertTrue(here >= room - 1e-3, here + " for " + room);
        assertTrue(-lacksM(away * (1 + ERROR)) <= room + 1e-3, here + " for " + room);
      }
    }
  }

  /** Nearest and farthest distance of an area from the basin in metres. */
  private static double[] away(Geometry area) {
    Geometry basin =
        new GeometryFactory()
            .createPoint(new Coordinate(PlannedYard.EAST + X, PlannedYard.NORTH + Y));
    double farthest = 0;
    for (Coordinate c : area.getCoordinates()) {
      farthest = Math.max(farthest, c.distance(basin.getCoordinate()));
    }
    return new double[] {area.distance(basin), farthest};
  }

  private static Object value(Layer layer, Feature feature, String field) {
    return feature.values().get(layer.indexOf(field));
  }

  private static double number(Layer layer, Feature feature, String field) {
    Object value = value(layer, feature, field);
    assertNotNull(value, field + " of " + feature.values());
    return ((Number) value).doubleValue();
  }
}
