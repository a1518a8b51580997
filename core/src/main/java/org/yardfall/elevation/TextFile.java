package org.yardfall.elevation;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.Charset;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.yardfall.site.BadInputException;

/**
 * A text file whose encoding is told from its first bytes: by its byte order mark, by the zeros of
 * UTF-16, as UTF-8 where it is valid, else as Windows-1252.
 */
final class TextFile {

  private static final int SAMPLE_BYTES = 1 << 16;
  private static final double MOST_CONTROL_BYTES = 0.01;

  private final Path file;
  private final Charset charset;
  private final int markBytes;
  private final String sample;

  private TextFile(Path file, Charset charset, int markBytes, byte[] head, boolean whole) {
    this.file = file;
    this.charset = charset;
    this.markBytes = markBytes;
    String text = new String(head, markBytes, head.length - markBytes, charset);
    int lastLine = Math.max(text.lastIndexOf('\n'), text.lastIndexOf('\r'));
    this.sample = whole || lastLine < 0 ? text : text.substring(0, lastLine);
  }

  /**
   * Looks at a file's first bytes.
   *
   * @throws BadInputException where the file is missing, empty, or no text
   */
  static TextFile of(Path file) {
    byte[] head;
    boolean whole;
    try (InputStream in = Files.newInputStream(file)) {
      head = in.readNBytes(SAMPLE_BYTES);
      whole = in.read() < 0;
    } catch (IOException e) {
      throw new BadInputException(
          file.toString(), "it cannot be read (" + e.getMessage() + ")", "check the path");
    }
    if (head.length == 0) {
      throw new BadInputException(file.toString(), "it is empty", "give a file of shots");
    }
    if (starts(head, 0xEF, 0xBB, 0xBF)) {
      return new TextFile(file, StandardCharsets.UTF_8, 3, head, whole);
    }
    if (starts(head, 0xFE, 0xFF)) {
      return new TextFile(file, StandardCharsets.UTF_16BE, 2, head, whole);
    }
    if (starts(head, 0xFF, 0xFE)) {
      return new TextFile(file, StandardCharsets.UTF_16LE, 2, head, whole);
    }
    Charset charset = unmarked(head);
    if (charset == null) {
      throw new BadInputException(
          file.toString(),
          "it is not text",
          "give the shots as CSV, TXT or LandXML, or ground points as LAS or LAZ");
    }
    return new TextFile(file, charset, 0, head, whole);
  }

  private static boolean starts(byte[] head, int... mark) {
    if (head.length < mark.length) {
      return false;
    }
    for (int i = 0; i < mark.length; i++) {
      if ((head[i] & 0xFF) != mark[i]) {
        return false;
      }
    }
    return true;
  }

  private static Charset unmarked(byte[] head) {
    int zerosEven = 0;
    int zerosOdd = 0;
    int controls = 0;
    for (int i = 0; i < head.length; i++) {
      if (head[i] == 0) {
        if (i % 2 == 0) {
          zerosEven++;
        } else {
          zerosOdd++;
        }
      } else if (head[i] > 0 && head[i] < 32 && (head[i] < 9 || head[i] > 13) && head[i] != 26) {
        controls++;
      }
    }
    if (zerosOdd > 0.3 * head.length && zerosEven == 0) {
      return StandardCharsets.UTF_16LE;
    }
    if (zerosEven > 0.3 * head.length && zerosOdd == 0) {
      return StandardCharsets.UTF_16BE;
    }
    if (zerosEven + zerosOdd > 0 || controls > MOST_CONTROL_BYTES * head.length) {
      return null;
    }
    return isUtf8(head) ? StandardCharsets.UTF_8 : Charset.forName("windows-1252");
  }

  /** Whether the bytes are UTF-8, the last character perhaps cut. */
  private static boolean isUtf8(byte[] head) {
    CharsetDecoder decoder =
        StandardCharsets.UTF_8.newDecoder().onMalformedInput(CodingErrorAction.REPORT);
    return !decoder
        .decode(ByteBuffer.wrap(head), CharBuffer.allocate(head.length + 1), false)
        .isError();
  }

  Path file() {
    return file;
  }

  Charset charset() {
    return charset;
  }

  /** The first lines, whole ones. */
  String sample() {
    return sample;
  }

  /** Opens the whole text, without its byte order mark. */
  Reader reader() throws IOException {
    InputStream in = Files.newInputStream(file);
    in.skipNBytes(markBytes);
    return new BufferedReader(new InputStreamReader(in, charset));
  }
}
