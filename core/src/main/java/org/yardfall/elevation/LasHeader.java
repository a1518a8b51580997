package org.yardfall.elevation;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import org.geotools.api.referencing.crs.CoordinateReferenceSystem;
import org.yardfall.site.BadInputException;
import org.yardfall.site.CrsLookup;

/**
 * The public header block and the CRS records of a LAS or LAZ file, by the ASPRS LAS Specification
 * 1.4 (revision 15), which holds for 1.0 to 1.4. Read here and not by the library that reads the
 * points, since that one asks for as much memory as a damaged header names; what does not fit the
 * file's length is refused.
 */
final class LasHeader {

  private static final int SHORTEST_HEADER = 227;
  private static final int HEADER_OF_1_4 = 375;
  private static final int RECORD_HEADER = 54;
  private static final int WKT_RECORD = 2112;
  private static final int KEY_RECORD = 34_735;
  private static final int TEXT_RECORD = 34_737;

  /** Bytes of a point by its format, from 0. */
  private static final int[] POINT_BYTES = {20, 28, 26, 34, 57, 63, 30, 36, 38, 59, 67};

  private final Path file;
  private final int format;
  private final long points;
  private final double[] scale = new double[3];
  private final double[] offset = new double[3];
  private final double[] least = new double[2];
  private final double[] most = new double[2];
  private final Map<Integer, ByteBuffer> records = new HashMap<>();
  private final List<String> warnings = new ArrayList<>();

  private LasHeader(Path file, FileChannel in) throws IOException {
    this.file = file;
    ByteBuffer head = bytes(in, 0, (int) Math.min(in.size(), HEADER_OF_1_4));
    if (head.capacity() < SHORTEST_HEADER) {
      throw cutOff();
    }
    int minor = head.get(25);
    int headerSize = unsigned(head.getShort(94));
    long pointsAt = Integer.toUnsignedLong(head.getInt(96));
    long recordCount = Integer.toUnsignedLong(head.getInt(100));
    int stored = head.get(104) & 0xFF;
    boolean compressed = stored >= 0x80;
    format = stored & 0x3F;
    int pointBytes = unsigned(head.getShort(105));
    boolean sound =
        head.get(24) == 1
            && minor >= 0
            && minor <= 4
            && headerSize >= (minor == 4 ? HEADER_OF_1_4 : SHORTEST_HEADER)
            && head.capacity() >= Math.min(headerSize, HEADER_OF_1_4)
            && recordCount <= (pointsAt - headerSize) / RECORD_HEADER
            && format < POINT_BYTES.length
            && pointBytes >= POINT_BYTES[format];
    if (!sound) {
      throw bad("its header is damaged", "export it again");
    }
    long legacy = Integer.toUnsignedLong(head.getInt(107));
    points = minor == 4 && legacy == 0 ? head.getLong(247) : legacy;
    for (int axis = 0; axis < 3; axis++) {
      scale[axis] = head.getDouble(131 + 8 * axis);
      offset[axis] = head.getDouble(155 + 8 * axis);
    }
    for (int axis = 0; axis < 2; axis++) {
      most[axis] = head.getDouble(179 + 16 * axis);
      least[axis] = head.getDouble(187 + 16 * axis);
    }
    readRecords(in, headerSize, recordCount, pointsAt);
    if (points < 0 || (points > 0 && pointsEnd(in, compressed, pointsAt, pointBytes) > in.size())) {
      throw cutOff();
    }
  }

  /** Where the points end, or where the table of a compressed file's chunks begins. */
  private long pointsEnd(FileChannel in, boolean compressed, long pointsAt, int pointBytes)
      throws IOException {
    if (!compressed) {
      return pointsAt + points * pointBytes;
    }
    if (pointsAt + 8 > in.size()) {
      return Long.MAX_VALUE;
    }
    return bytes(in, pointsAt, 8).getLong(0) + 1;
  }

  private void readRecords(FileChannel in, int from, long count, long end) throws IOException {
    long at = from;
    for (long i = 0; i < count && at + RECORD_HEADER <= Math.min(end, in.size()); i++) {
      ByteBuffer head = bytes(in, at, RECORD_HEADER);
      int id = unsigned(head.getShort(18));
      int length = unsigned(head.getShort(20));
      at += RECORD_HEADER;
      if (at + length > Math.min(end, in.size())) {
        return;
      }
      if (id == WKT_RECORD || id == KEY_RECORD || id == TEXT_RECORD) {
        records.putIfAbsent(id, bytes(in, at, length));
      }
      at += length;
    }
  }

  /** Whether a file begins as LAS and LAZ do. */
  static boolean looksLike(Path file) {
    try (FileChannel in = FileChannel.open(file, StandardOpenOption.READ)) {
      return in.size() >= 4 && bytes(in, 0, 4).getInt(0) == 0x4653_414C; // "LASF"
    } catch (IOException e) {
      return false;
    }
  }

  /**
   * Reads a header.
   *
   * @throws BadInputException where it is damaged, or promises more than the file holds
   */
  static LasHeader read(Path file) {
    try (FileChannel in = FileChannel.open(file, StandardOpenOption.READ)) {
      return new LasHeader(file, in);
    } catch (IOException e) {
      throw new BadInputException(
          file.toString(), "it cannot be read (" + e.getMessage() + ")", "check the file");
    }
  }

  private static ByteBuffer bytes(FileChannel in, long at, int length) throws IOException {
    ByteBuffer bytes = ByteBuffer.allocate(length).order(ByteOrder.LITTLE_ENDIAN);
    while (bytes.hasRemaining() && in.read(bytes, at + bytes.position()) >= 0) {
      // until it is full or the file ends
    }
    return bytes.flip();
  }

  private static int unsigned(short value) {
    return Short.toUnsignedInt(value);
  }

  /** Number of points. */
  long points() {
    return points;
  }

  /** Whether points are of the formats 0 to 5, whose class shares its byte with flags. */
  boolean classWithFlags() {
    return format < 6;
  }

  /** A stored number in the file's unit; axis 0 is x or easting, 1 is y, 2 elevation. */
  double value(int axis, int stored) {
    return offset[axis] + scale[axis] * stored;
  }

  /** The bounds that the header names: least x and y, greatest x and y, in the file's unit. */
  double[] bounds() {
    return new double[] {least[0], least[1], most[0], most[1]};
  }

  /** The CRS that it names, where one is known by that; what is not understood is a warning. */
  Optional<RasterCrs> crs() {
    String wkt = wkt();
    try {
      if (!wkt.isEmpty()) {
        CoordinateReferenceSystem crs = CrsLookup.parseWkt(wkt, file.toString());
        return Optional.of(RasterCrs.of(crs, file.toString()));
      }
      Optional<RasterCrs> coded = keys().codedCrs(file.toString());
      coded.ifPresent(RasterCrs::definition);
      if (coded.isEmpty() && !keys().isEmpty()) {
        warnings.add("its CRS is no code of the EPSG register and is not understood");
      }
      return coded;
    } catch (BadInputException e) {
      warnings.add("its CRS is not understood");
      return Optional.empty();
    }
  }

  /** The unit of its elevations, where it names one. */
  Optional<VerticalUnit> verticalUnit() {
    OptionalInt key = keys().number(GeoKeys.VERTICAL_UNIT);
    return (key.isPresent()
            ? VerticalUnit.ofEpsg(key.getAsInt(), "GeoTIFF key 4099")
            : Optional.<VerticalUnit>empty())
        .or(() -> VerticalCrs.ofWkt(wkt()).map(VerticalCrs::unit))
        .or(() -> keys().verticalCrs().map(VerticalCrs::unit));
  }

  private String wkt() {
    ByteBuffer text = records.get(WKT_RECORD);
    return text == null ? "" : text(text);
  }

  private static String text(ByteBuffer bytes) {
    String text = StandardCharsets.UTF_8.decode(bytes.duplicate()).toString();
    int end = text.indexOf('\0');
    return (end < 0 ? text : text.substring(0, end)).strip();
  }

  private GeoKeys keys() {
    ByteBuffer directory = records.get(KEY_RECORD);
    if (directory == null) {
      return GeoKeys.of(new int[0], "");
    }
    int[] numbers = new int[directory.limit() / 2];
    for (int i = 0; i < numbers.length; i++) {
      numbers[i] = unsigned(directory.getShort(2 * i));
    }
    ByteBuffer texts = records.get(TEXT_RECORD);
    return GeoKeys.of(numbers, texts == null ? "" : text(texts));
  }

  /** What was odd about it. */
  List<String> warnings() {
    return warnings;
  }

  private BadInputException cutOff() {
    return bad("it is cut off: its header promises more than it holds", "copy it again");
  }

  private BadInputException bad(String what, String mend) {
    return new BadInputException(file.toString(), what, mend);
  }
}
