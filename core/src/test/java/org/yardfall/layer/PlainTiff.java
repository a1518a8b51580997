package org.yardfall.layer;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import java.util.zip.DataFormatException;
import java.util.zip.Inflater;

/**
 * The first image of a TIFF of deflated tiles of 32-bit floats, read by the letter of TIFF 6.0
 * (1992) without any library: an oracle for what others write.
 */
final class PlainTiff {

  private final ByteBuffer bytes;
  private final Map<Integer, double[]> numbers = new HashMap<>();
  private final Map<Integer, String> texts = new HashMap<>();

  PlainTiff(Path file) throws IOException {
    bytes = ByteBuffer.wrap(Files.readAllBytes(file));
    bytes.order(bytes.get(0) == 'I' ? ByteOrder.LITTLE_ENDIAN : ByteOrder.BIG_ENDIAN);
    if (bytes.getShort(2) != 42) {
      throw new IOException("no TIFF");
    }
    int directory = bytes.getInt(4);
    int entries = Short.toUnsignedInt(bytes.getShort(directory));
    for (int i = 0; i < entries; i++) {
      readEntry(directory + 2 + 12 * i);
    }
  }

  private void readEntry(int at) throws IOException {
    int tag = Short.toUnsignedInt(bytes.getShort(at));
    int type = bytes.getShort(at + 2);
    int count = bytes.getInt(at + 4);
    int size =
        switch (type) {
          case 2 -> 1;
          case 3 -> 2;
          case 4 -> 4;
          case 5, 12 -> 8;
          default -> throw new IOException("tag " + tag + " of type " + type);
        };
    int from = size * count <= 4 ? at + 8 : bytes.getInt(at + 8);
    if (type == 2) {
      // ends with a zero byte
      texts.put(tag, new String(bytes.array(), from, count - 1, StandardCharsets.US_ASCII));
      return;
    }
    double[] values = new double[count];
    for (int i = 0; i < count; i++) {
      int here = from + size * i;
      values[i] =
          switch (type) {
            case 3 -> Short.toUnsignedInt(bytes.getShort(here));
            case 4 -> Integer.toUnsignedLong(bytes.getInt(here));
            case 5 -> (double) bytes.getInt(here) / bytes.getInt(here + 4);
            default -> bytes.getDouble(here);
          };
    }
    numbers.put(tag, values);
  }

  boolean has(int tag) {
    return numbers.containsKey(tag) || texts.containsKey(tag);
  }

  double[] numbers(int tag) {
    return numbers.get(tag);
  }

  String text(int tag) {
    return texts.get(tag);
  }

  /** The floats, row by row. */
  float[] cells() throws IOException {
    int cols = (int) numbers(256)[0];
    int rows = (int) numbers(257)[0];
    int width = (int) numbers(322)[0];
    int height = (int) numbers(323)[0];
    int across = (cols + width - 1) / width;
    float[] cells = new float[cols * rows];
    for (int tile = 0; tile < numbers(324).length; tile++) {
      ByteBuffer floats = inflated(tile, width * height * 4);
      for (int i = 0; i < width * height; i++) {
        int col = tile % across * width + i % width;
        int row = tile / across * height + i / width;
        if (col < cols && row < rows) {
          cells[row * cols + col] = floats.getFloat(4 * i);
        }
      }
    }
    return cells;
  }

  private ByteBuffer inflated(int tile, int size) throws IOException {
    Inflater inflater = new Inflater();
    inflater.setInput(bytes.array(), (int) numbers(324)[tile], (int) numbers(325)[tile]);
    byte[] plain = new byte[size];
    try {
      if (inflater.inflate(plain) != size) {
        throw new IOException("tile " + tile + " is short");
      }
    } catch (DataFormatException e) {
      throw new IOException(e);
    } finally {
      inflater.end();
    }
    return ByteBuffer.wrap(plain).order(bytes.order());
  }
}
