package org.yardfall.elevation;

import java.awt.Rectangle;
import java.awt.geom.AffineTransform;
import java.io.IOException;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.yardfall.site.BadInputException;

/**
 * An ASCII grid: a few header lines of a name and a number, then the cells row by row from the
 * north, as numbers with decimal points whatever the machine's language.
 */
final class AsciiGridFile implements RasterFile {

  private static final Set<String> NAMES =
      Set.of(
          "ncols",
          "nrows",
          "xllcorner",
          "yllcorner",
          "xllcenter",
          "yllcenter",
          "cellsize",
          "dx",
          "dy",
          "nodata_value");

  private final RasterHeader header;

  private AsciiGridFile(RasterHeader header) {
    this.header = header;
  }

  /** Whether the file begins as an ASCII grid does. */
  static boolean looksLike(Path file) {
    try (NumberScanner scanner = new NumberScanner(file)) {
      String word = scanner.word();
      return word != null && NAMES.contains(word.toLowerCase(Locale.ROOT));
    } catch (IOException e) {
      return false;
    }
  }

  /**
   * Opens a file and reads its header.
   *
   * @throws BadInputException where the header is not whole
   */
  static AsciiGridFile open(Path file) {
    try (NumberScanner scanner = new NumberScanner(file)) {
      return new AsciiGridFile(header(file, names(file, scanner)));
    } catch (IOException e) {
      throw unreadable(file, e);
    }
  }

  /** Reads the header's lines and leaves the scanner before the first cell. */
  private static Map<String, Double> names(Path file, NumberScanner scanner) throws IOException {
    Map<String, Double> values = new HashMap<>();
    while (scanner.nextIsLetter()) {
      String name = scanner.word();
      String key = name.toLowerCase(Locale.ROOT);
      if (!NAMES.contains(key)) {
        if (values.containsKey("ncols") && values.containsKey("nrows")) {
          // A cell that is a word: nan.
          scanner.pushBack(name);
          break;
        }
        throw bad(file, "its header line '" + name + "' is not known", "see its first lines");
      }
      String word = scanner.word();
      if (word == null) {
        throw bad(file, "it ends within its header", "get the file again from its source");
      }
      values.put(key, scanner.number(word));
    }
    return values;
  }

  private static RasterHeader header(Path file, Map<String, Double> values) {
    int cols = count(file, values, "ncols");
    int rows = count(file, values, "nrows");
    double wide = size(file, values, "dx");
    double high = size(file, values, "dy");
    double west = corner(file, values, "x", wide);
    double south = corner(file, values, "y", high);
    Double noData = values.get("nodata_value");
    return new RasterHeader(
        file,
        cols,
        rows,
        new AffineTransform(wide, 0, 0, -high, west, south + rows * high),
        SidecarCrs.beside(file),
        SampleType.TEXT,
        noData == null ? OptionalDouble.empty() : OptionalDouble.of(noData),
        1,
        0,
        Optional.empty(),
        "",
        List.of());
  }

  private static int count(Path file, Map<String, Double> values, String name) {
    Double value = values.get(name);
    if (value == null || value != Math.rint(value) || value < 1 || value > Integer.MAX_VALUE) {
      throw bad(
          file,
          value == null
              ? "its header has no " + name
              : "its " + name + " " + value + " is no count",
          "mend its header");
    }
    return value.intValue();
  }

  private static double size(Path file, Map<String, Double> values, String name) {
    Double value = values.getOrDefault(name, values.get("cellsize"));
    if (value == null || !(value > 0) || value.isInfinite()) {
      throw bad(
          file,
          value == null ? "its header has no cellsize" : "its cell size " + value + " is no size",
          "mend its header");
    }
    return value;
  }

  private static double corner(Path file, Map<String, Double> values, String axis, double cell) {
    Double corner = values.get(axis + "llcorner");
    Double centre = values.get(axis + "llcenter");
    if (corner == null && centre == null) {
      throw bad(
          file,
          "its header has neither " + axis + "llcorner nor " + axis + "llcenter",
          "mend its header");
    }
    return corner != null ? corner : centre - cell / 2;
  }

  @Override
  public RasterHeader header() {
    return header;
  }

  @Override
  public void read(Rectangle window, RowSink sink) {
    try (NumberScanner scanner = new NumberScanner(header.file())) {
      names(header.file(), scanner);
      scanner.skip((long) window.y * header.cols());
      double[] row = new double[window.width];
      for (int r = 0; r < window.height; r++) {
        scanner.skip(window.x);
        for (int c = 0; c < row.length; c++) {
          row[c] = scanner.next();
        }
        sink.take(window.y + r, row);
        boolean last = window.y + r == header.rows() - 1;
        scanner.skip(header.cols() - window.x - window.width);
        if (last && scanner.word() != null) {
          throw bad(
              header.file(),
              "it holds more than its " + header.rows() + " rows of " + header.cols() + " cells",
              "mend ncols and nrows in its header");
        }
      }
    } catch (IOException e) {
      throw unreadable(header.file(), e);
    }
  }

  private static BadInputException unreadable(Path file, IOException e) {
    BadInputException problem =
        bad(file, "it cannot be read (" + e.getMessage() + ")", "check the file");
    problem.initCause(e);
    return problem;
  }

  private static BadInputException bad(Path file, String what, String mend) {
    return new BadInputException(file.toString(), what, mend);
  }
}
