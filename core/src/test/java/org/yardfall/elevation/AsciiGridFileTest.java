package org.yardfall.elevation;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.OptionalDouble;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.yardfall.site.CrsLookup;

class AsciiGridFileTest {

  private static final String CELLS = "1.5 2 3\n4 -9999 6.25\n";

  @TempDir private Path folder;

  @Test
  void cornerAndCentreSayTheSame() throws IOException {
    checkGrid("ncols 3\nnrows 2\nxllcorner 10\nyllcorner 20\ncellsize 2\nNODATA_value -9999\n");
    checkGrid("NCOLS 3\nNROWS 2\nXLLCENTER 11\nYLLCENTER 21\nCELLSIZE 2\nNODATA_VALUE -9999\n");
    checkGrid("nrows\t2\r\nNcols\t3\r\nyllcorner 20\r\nxllcenter 11.0\r\ndx 2\r\ndy 2\r\n");
  }

  @Test
  void rowsMayBeBrokenAnywhere() throws IOException {
    assertArrayEquals(
        new float[] {1.5f, 2, 3, 4, Float.NaN, 6.25f},
        read("ncols 3\nnrows 2\nxllcorner 10\nyllcorner 20\ncellsize 2\n1.5\n2 3 4\nnan 6.25")
            .ground()
            .z());
  }

  @Test
  void theMachinesLanguageDoesNotMatter() throws IOException {
    Locale before = Locale.getDefault();
    try {
      for (String language : new String[] {"de-DE", "nb-NO", "ar-SA"}) {
        Locale.setDefault(Locale.forLanguageTag(language));
        checkGrid("ncols 3\nnrows 2\nxllcorner 10\nyllcorner 20\ncellsize 2\n");
      }
    } finally {
      Locale.setDefault(before);
    }
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "ncols 3;nrows 1;xllcorner 0;yllcorner 0;cellsize 1;1,5 2,5 3,5 | decimal comma ('1,5')",
        "ncols 3;nrows 1;xllcorner 0,5;yllcorner 0;cellsize 1;1 2 3 | decimal comma ('0,5')",
        "ncols 3;nrows 2;xllcorner 0;yllcorner 0;cellsize 1;1 2 3 4 | it ends after 4 cells",
        "ncols 2;nrows 1;xllcorner 0;yllcorner 0;cellsize 1;1 2 3 4 | more than its 1 rows",
        "ncols 3;nrows 1;xllcorner 0;yllcorner 0;cellsize 1;1 x2 3 | 'x2' is no number",
        "ncols 3;xllcorner 0;yllcorner 0;cellsize 1;1 2 3 | no nrows",
        "ncols 3;nrows 1;xllcorner 0;yllcorner 0;cellsize 0;1 2 3 | 0.0 is no size",
        "ncols 3;nrows 1.5;xllcorner 0;yllcorner 0;cellsize 1;1 2 3 | 1.5 is no count",
        "ncols 3;nrows 1;yllcorner 0;cellsize 1;1 2 3 | neither xllcorner nor xllcenter"
      })
  void aBrokenGridIsRefused(String lines, String why) {
    RasterRefusalTest.checkRefused(why, () -> read(lines.replace(';', '\n')));
  }

  @Property(tries = 300, seed = "20261125")
  void everyNumberReadsAsJavaReadsIt(@ForAll double number, @ForAll float short32)
      throws IOException {
    Path file = Files.createTempFile("numbers", ".asc");
    try {
      String fixed = String.format(Locale.ROOT, "%.4f", number % 1e7);
      Files.writeString(
          file, number + " " + short32 + " " + fixed + " ".repeat(40), StandardCharsets.US_ASCII);
      try (NumberScanner scanner = new NumberScanner(file)) {
        assertEquals(number, scanner.next());
        assertEquals(Double.parseDouble(Float.toString(short32)), scanner.next());
        assertEquals(Double.parseDouble(fixed), scanner.next());
      }
    } finally {
      Files.delete(file);
    }
  }

  private void checkGrid(String header) throws IOException {
    Terrain terrain = read(header + CELLS);
    assertEquals(new GridFrame(3, 2, 10, 24, 2), terrain.ground().frame());
    assertArrayEquals(new float[] {1.5f, 2, 3, 4, Float.NaN, 6.25f}, terrain.ground().z());
  }

  private Terrain read(String text) throws IOException {
    Path file = Files.writeString(folder.resolve("grid.asc"), text);
    ElevationSource source =
        ElevationSource.open(
            RasterFixtures.input(OptionalDouble.empty(), "EPSG:3794", file),
            CrsLookup.of("EPSG:3794"));
    return source.read(source.extentM());
  }
}
