package org.yardfall.elevation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.yardfall.elevation.RasterFixtures.input;
import static org.yardfall.elevation.RasterFixtures.read;

import java.io.IOException;
import java.nio.file.Path;
import java.util.function.DoubleBinaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.site.BadInputException;
import org.yardfall.site.CrsLookup;
import org.yardfall.site.PlaneTransform;
import org.yardfall.site.WorkingCrs;

/**
 * The smallest rasters that show where a cell lies, which way the rows run and in what unit the
 * heights are. Each is written byte by byte, so nothing stands between the standard and the reader.
 */
class SmallestRasterTest {

  private static final int METRES_UTM = 26915;
  private static final int US_SURVEY_FOOT = 9003;
  private static final double US_FOOT_M = 1200.0 / 3937.0;

  @TempDir Path folder;

  /**
   * The same tie point: of an area it is the cell's corner, of a point its centre, so the centres
   * differ by half a cell (OGC GeoTIFF 1.1, GTRasterTypeGeoKey; GDAL 3.6.2 places both files so).
   */
  @Test
  void theCentresOfAreasAndOfPointsDifferByHalfACell() throws IOException {
    float[] z = cells(4, (col, row) -> 100 + col + 4 * row);
    GridFrame area =
        read(SmallTiff.of(4, z).projected(METRES_UTM).tied(500_000, 4_983_000, 2).write(at("a")))
            .ground()
            .frame();
    GridFrame point =
        read(SmallTiff.of(4, z)
                .projected(METRES_UTM)
                .pixelIsPoint()
                .tied(500_000, 4_983_000, 2)
                .write(at("p")))
            .ground()
            .frame();
    assertEquals(new Coordinate(500_001, 4_982_999), area.centre(0));
    assertEquals(new Coordinate(500_000, 4_983_000), point.centre(0));
    assertEquals(1, area.x(3) - point.x(3), 1e-9);
    assertEquals(-1, area.y(3) - point.y(3), 1e-9);
  }

  /**
   * Rows that run north, the transform's sixth term positive: ground that rises 1 m per 10 m
   * northward slopes atan 0.1, 5.71°, and rises northward still.
   */
  @Test
  void aRampWhoseRowsRunNorthSlopesAsItDoes() throws IOException {
    float[] z = cells(12, (col, row) -> 240 + row);
    Path file =
        SmallTiff.of(12, z)
            .projected(METRES_UTM)
            .transformed(10, 0, 500_000, 0, 10, 4_983_000)
            .write(at("north"));
    ElevationGrid ground = read(file).ground();
    assertEquals(new GridFrame(12, 12, 500_000, 4_983_120, 10), ground.frame());
    for (int row = 1; row < 12; row++) {
      double rise = ground.at(5, row - 1) - ground.at(5, row);
      double run = ground.frame().y(row - 1) - ground.frame().y(row);
      assertEquals(5.71, Math.toDegrees(Math.atan2(rise, run)), 0.005);
    }
    assertEquals(240, ground.at(0, 11));
  }

  /**
   * A tile that names no unit beside one in US survey feet (1200/3937 m, NIST Handbook 44, appendix
   * C): each is read in its own, the unnamed one in that of its coordinates, and both facts are
   * said.
   */
  @Test
  void aTileWithoutAUnitIsNotReadInItsNeighboursUnit() throws IOException {
    float[] z = cells(4, (col, row) -> 800);
    Path feet =
        SmallTiff.of(4, z)
            .projected(METRES_UTM)
            .verticalUnit(US_SURVEY_FOOT)
            .tied(500_000, 4_983_000, 1)
            .write(at("feet"));
    Path blank =
        SmallTiff.of(4, z).projected(METRES_UTM).tied(500_004, 4_983_000, 1).write(at("blank"));
    ElevationSource source =
        ElevationSource.open(input(feet, blank), CrsLookup.of("EPSG:" + METRES_UTM));
    Terrain both = source.read(source.extentM());
    assertEquals((float) (800 * US_FOOT_M), both.ground().at(0, 0));
    assertEquals(800, both.ground().at(4, 0));
    assertTrue(
        both.warnings().stream()
            .anyMatch(
                w ->
                    w.contains("different units")
                        && w.contains("feet.tif in US survey foot")
                        && w.contains("blank.tif in metre")),
        () -> both.warnings().toString());
    assertTrue(
        both.assumptions().stream()
            .anyMatch(
                a ->
                    a.about().equals("elevation.vertical-unit")
                        && a.value().equals("metre")
                        && a.source().contains("blank.tif")));
  }

  /**
   * A plane over longitude and latitude, its heights in feet: no length is measured in degrees, so
   * it is no plane to route on; brought to its UTM zone it falls as it should, in metres.
   */
  @Test
  void aPlaneInDegreesAndFeetIsNotRoutedOnAsItStands() throws IOException {
    double cell = 1e-5;
    // 1 US survey foot a cell southward
    float[] z = cells(40, (col, row) -> 800 - row);
    Path file =
        SmallTiff.of(40, z)
            .geographic(4326)
            .verticalUnit(US_SURVEY_FOOT)
            .tied(-93, 45, cell)
            .write(at("degrees"));
    assertTrue(ElevationSource.PLANES.own(file).isEmpty());
    BadInputException refused =
        assertThrows(BadInputException.class, () -> CrsLookup.of("EPSG:4326"));
    assertEquals(1, refused.problems().size());
    assertTrue(refused.getMessage().lines().count() == 1, refused.getMessage());

    WorkingCrs zone = ElevationSource.PLANES.zone(file).orElseThrow();
    assertEquals("EPSG:32615", zone.name());
    ElevationSource source = ElevationSource.open(input(file), zone);
    ElevationGrid ground = source.read(source.extentM()).ground();
    PlaneTransform toPlane = PlaneTransform.toPlane(CrsLookup.decode("EPSG:4326"), zone);
    for (int row : new int[] {5, 20, 35}) {
      Coordinate place = new Coordinate(-93 + 20 * cell, 45 - (row + 0.5) * cell);
      Coordinate there = toPlane.apply(place);
      assertEquals((800 - row) * US_FOOT_M, ground.bilinear(there.x, there.y), 0.01);
    }
  }

  private Path at(String name) {
    return folder.resolve(name + ".tif");
  }

  private static float[] cells(int side, DoubleBinaryOperator z) {
    float[] cells = new float[side * side];
    for (int i = 0; i < cells.length; i++) {
      int row = i / side;
      cells[i] = (float) z.applyAsDouble(i - row * side, row);
    }
    return cells;
  }
}
