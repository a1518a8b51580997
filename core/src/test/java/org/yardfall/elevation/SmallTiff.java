package org.yardfall.elevation;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.TreeMap;

/**
 * A GeoTIFF of a few elevations, written byte by byte after TIFF 6.0 (1992) and OGC GeoTIFF 1.1
 * (OGC 19-008r4), by no library: one strip of 32-bit floats, the tags that place it and its keys.
 */
final class SmallTiff {

  /** Key 1024: 1 projected, 2 geographic. */
  private static final int MODEL_TYPE = 1024;

  /** Key 1025: 1 the pixel is an area, 2 it is a point. */
  private static final int RASTER_TYPE = 1025;

  private static final int GEODETIC_CRS = 2048;
  private static final int PROJECTED_CRS = 3072;
  private static final int VERTICAL_UNITS = 4099;

  private static final short SHORT = 3;
  private static final short LONG = 4;
  private static final short DOUBLE = 12;

  private final int cols;
  private final float[] cells;
  private final Map<Integer, double[]> placing = new TreeMap<>();
  private final Map<Integer, Integer> keys = new TreeMap<>();

  private SmallTiff(int cols, float[] cells) {
    this.cols = cols;
    this.cells = cells;
    keys.put(RASTER_TYPE, 1);
  }

  /** Elevations as stored, row by row. */
  static SmallTiff of(int cols, float[] cells) {
    return new SmallTiff(cols, cells);
  }

  SmallTiff projected(int epsg) {
    keys.put(MODEL_TYPE, 1);
    keys.put(PROJECTED_CRS, epsg);
    return this;
  }

  SmallTiff geographic(int epsg) {
    keys.put(MODEL_TYPE, 2);
    keys.put(GEODETIC_CRS, epsg);
    return this;
  }

  SmallTiff pixelIsPoint() {
    keys.put(RASTER_TYPE, 2);
    return this;
  }

  /** The unit of the elevations by its EPSG code. */
  SmallTiff verticalUnit(int epsg) {
    keys.put(VERTICAL_UNITS, epsg);
    return this;
  }

  /** Raster place 0 0 tied to x y, cells of a size, rows southward. */
  SmallTiff tied(double x, double y, double size) {
    placing.put(33550, new double[] {size, size, 0});
    placing.put(33922, new double[] {0, 0, 0, x, y, 0});
    return this;
  }

  /** x and y of a raster place: x = a col + b row + c, y = d col + e row + f. */
  SmallTiff transformed(double a, double b, double c, double d, double e, double f) {
    placing.put(34264, new double[] {a, b, 0, c, d, e, 0, f, 0, 0, 0, 0, 0, 0, 0, 1});
    return this;
  }

  /** Writes it. */
  Path write(Path file) throws IOException {
    int entries = 11 + placing.size();
    int afterDirectory = 8 + 2 + 12 * entries + 4;
    ByteBuffer bytes = ByteBuffer.allocate(4096 + 4 * cells.length).order(ByteOrder.LITTLE_ENDIAN);
    ByteBuffer values = bytes.duplicate().order(ByteOrder.LITTLE_ENDIAN).position(afterDirectory);
    bytes.put((byte) 'I').put((byte) 'I').putShort((short) 42).putInt(8);
    bytes.putShort((short) entries);
    int rows = cells.length / cols;
    entry(bytes, 256, LONG, cols);
    entry(bytes, 257, LONG, rows);
    entry(bytes, 258, SHORT, Float.SIZE);
    entry(bytes, 259, SHORT, 1); // not compressed
    entry(bytes, 262, SHORT, 1); // least is black
    entry(bytes, 273, LONG, values.position());
    for (float cell : cells) {
      values.putFloat(cell);
    }
    entry(bytes, 277, SHORT, 1);
    entry(bytes, 278, LONG, rows);
    entry(bytes, 279, LONG, Float.BYTES * cells.length);
    entry(bytes, 339, SHORT, 3); // floats
    placing.forEach(
        (tag, numbers) -> {
          head(bytes, tag, DOUBLE, numbers.length).putInt(values.position());
          for (double number : numbers) {
            values.putDouble(number);
          }
        });
    head(bytes, 34735, SHORT, 4 + 4 * keys.size()).putInt(values.position());
    values.putShort((short) 1).putShort((short) 1).putShort((short) 1);
    values.putShort((short) keys.size());
    keys.forEach(
        (key, value) ->
            values
                .putShort(key.shortValue())
                .putShort((short) 0)
                .putShort((short) 1)
                .putShort(value.shortValue()));
    bytes.putInt(0); // no other image
    byte[] whole = new byte[values.position()];
    bytes.get(0, whole);
    return Files.write(file, whole);
  }

  private static void entry(ByteBuffer bytes, int tag, short type, int value) {
    head(bytes, tag, type, 1).putInt(value); // little end first, so a short stands where it should
  }

  private static ByteBuffer head(ByteBuffer bytes, int tag, short type, int count) {
    return bytes.putShort((short) tag).putShort(type).putInt(count);
  }
}
