package org.yardfall.elevation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.yardfall.elevation.RasterRefusalTest.checkRefused;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * GDAL's notes on a band, as its raster data model documents them: elevation = stored value × scale
 * + offset.
 */
class BandNotesTest {

  private static final Path FILE = Path.of("ground.tif");

  @Test
  void storedCentimetresAreScaled() {
    BandNotes notes =
        BandNotes.of(
            FILE,
            "<GDALMetadata><Item name=\"SCALE\" sample=\"0\" role=\"scale\">0.01</Item>"
                + "<Item name=\"OFFSET\" sample=\"0\" role=\"offset\">-5</Item></GDALMetadata>");
    assertEquals(95, 10_000 * notes.scale() + notes.offset(), 1e-12);
  }

  @Test
  void anotherBandsScaleIsNotTaken() {
    assertEquals(
        1,
        BandNotes.of(
                FILE,
                "<GDALMetadata><Item name=\"SCALE\" sample=\"1\" role=\"scale\">0.01</Item>"
                    + "</GDALMetadata>")
            .scale());
  }

  @ParameterizedTest
  @CsvSource({
    "scale, a hundredth, is no number",
    "scale, NaN, is no number",
    "scale, 0, its scale is 0",
    "offset, ten, is no number"
  })
  void aScaleThatCannotBeReadStopsTheReading(String role, String value, String why) {
    checkRefused(
        why,
        () ->
            BandNotes.of(
                FILE,
                "<GDALMetadata><Item sample=\"0\" role=\""
                    + role
                    + "\">"
                    + value
                    + "</Item></GDALMetadata>"));
  }

  @Test
  void brokenNotesStopTheReading() {
    checkRefused("cannot be read", () -> BandNotes.of(FILE, "<GDALMetadata><Item"));
  }
}
