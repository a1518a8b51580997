package org.yardfall.elevation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.yardfall.elevation.RasterFixtures.file;
import static org.yardfall.elevation.RasterFixtures.input;
import static org.yardfall.elevation.RasterFixtures.read;

import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.yardfall.site.CrsLookup;

/**
 * Each raster holds the same ramp of stored numbers, 100 and 0.2 more per cell of 10. A US survey
 * foot is 1200/3937 m, an international foot 0.3048 m (NIST Handbook 44, appendix C).
 */
class RasterUnitTest {

  private static final double US_FOOT = 1200.0 / 3937.0;
  private static final double FOOT = 0.3048;

  @ParameterizedTest
  @CsvSource({
    "us_feet_compound.tif, us, us",
    "us_feet_band_metres.tif, us, m",
    "international_feet.tif, intl, intl",
    "metres_band_us_feet.tif, m, us"
  })
  void lengthsAndElevationsHaveTheirOwnUnits(String name, String length, String height) {
    checkRamp(read(name), metres(length), metres(height));
  }

  @Test
  void aUnitThatNobodyNamesIsAssumedAloud() {
    assertTrue(
        read("international_feet.tif").assumptions().stream()
            .anyMatch(
                a ->
                    a.about().equals("elevation.vertical-unit")
                        && a.value().equals("international foot")));
    assertTrue(
        read("us_feet_compound.tif").assumptions().stream()
            .noneMatch(a -> a.about().equals("elevation.vertical-unit")));
  }

  @Test
  void theStatedUnitWinsAloud() {
    ElevationSource source =
        ElevationSource.open(
            input(OptionalDouble.of(FOOT), null, file("metres_band_us_feet.tif")),
            CrsLookup.of("EPSG:26915"));
    Terrain terrain = source.read(source.extentM());
    checkRamp(terrain, 1, FOOT);
    assertTrue(terrain.warnings().stream().anyMatch(w -> w.contains("is used instead")));
  }

  @Test
  void theVerticalDatumIsNamed() {
    assertEquals(
        "North American Vertical Datum 1988", read("us_feet_compound.tif").verticalDatum());
  }

  private static double metres(String unit) {
    return switch (unit) {
      case "us" -> US_FOOT;
      case "intl" -> FOOT;
      default -> 1;
    };
  }

  private static void checkRamp(Terrain terrain, double lengthM, double heightM) {
    assertEquals(10 * lengthM, terrain.ground().frame().cellM(), 1e-12);
    for (int col = 0; col < 12; col++) {
      float stored = (float) (100 + col * 0.2);
      assertEquals((float) (stored * heightM), terrain.ground().at(col, 3));
    }
  }
}
