package org.yardfall.elevation;

import java.io.FileInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Path;
import org.yardfall.site.BadInputException;

/**
 * Reads words and numbers, parted by white space, from a text file as fast as its bytes come.
 *
 * <p>Most numbers take the short way: up to 15 digits and up to 22 places after the point, where
 * one division of two exact doubles is correctly rounded (Clinger, How to read floating point
 * numbers accurately, PLDI 1990). All others go through {@link Double#parseDouble}.
 */
final class NumberScanner implements AutoCloseable {

  private static final double[] POWERS = new double[23];

  static {
    double power = 1;
    for (int i = 0; i < POWERS.length; i++) {
      POWERS[i] = power;
      power *= 10;
    }
  }

  private final Path file;
  private final InputStream in;
  private final byte[] buffer = new byte[1 << 16];
  private int at;
  private int end;
  private String pushedBack;
  private long numbers;

  NumberScanner(Path file) throws IOException {
    this.file = file;
    this.in = new FileInputStream(file.toFile());
  }

  /** Whether the next word begins with a letter. */
  boolean nextIsLetter() throws IOException {
    return skipSpace() && Character.isLetter((char) buffer[at]);
  }

  /** The next word, or null at the end of the file. */
  String word() throws IOException {
    if (pushedBack != null) {
      String word = pushedBack;
      pushedBack = null;
      return word;
    }
    if (!skipSpace()) {
      return null;
    }
    StringBuilder word = new StringBuilder();
    while ((at < end || fill()) && !isSpace(buffer[at])) {
      word.append((char) (buffer[at++] & 0xFF));
      if (word.length() > 80) {
        throw bad("it holds a word of more than 80 characters; it is no ASCII grid");
      }
    }
    return word.toString();
  }

  /** Gives a word back, to be read again. */
  void pushBack(String word) {
    pushedBack = word;
  }

  /** Passes over words. */
  void skip(long words) throws IOException {
    for (long i = 0; i < words; i++) {
      if (pushedBack != null) {
        pushedBack = null;
      } else if (skipSpace()) {
        while ((at < end || fill()) && !isSpace(buffer[at])) {
          at++;
        }
      } else {
        throw tooShort();
      }
      numbers++;
    }
  }

  /** The next number. */
  double next() throws IOException {
    if (pushedBack != null) {
      numbers++;
      return number(word());
    }
    if (!skipSpace()) {
      throw tooShort();
    }
    numbers++;
    if (end - at < 32) {
      // Too near the buffer's end to read in place.
      return number(word());
    }
    int start = at;
    int i = at;
    boolean negative = buffer[i] == '-';
    if (negative || buffer[i] == '+') {
      i++;
    }
    long mantissa = 0;
    int digits = 0;
    int places = -1;
    for (; i - start < 24; i++) {
      byte b = buffer[i];
      if (b >= '0' && b <= '9') {
        mantissa = mantissa * 10 + (b - '0');
        digits++;
        places += places >= 0 ? 1 : 0;
      } else if (b == '.' && places < 0) {
        places = 0;
      } else {
        break;
      }
    }
    if (digits > 0 && digits <= 15 && isSpace(buffer[i])) {
      at = i;
      double value = mantissa / POWERS[Math.max(0, places)];
      return negative ? -value : value;
    }
    return number(word());
  }

  /** The number that a word stands for. */
  double number(String word) {
    if (word.equalsIgnoreCase("nan") || word.equalsIgnoreCase("-nan")) {
      return Double.NaN;
    }
    try {
      char last = word.charAt(word.length() - 1);
      if ((last >= '0' && last <= '9') || last == '.') {
        return Double.parseDouble(word);
      }
    } catch (NumberFormatException e) {
      // said below
    }
    if (word.matches("[-+]?\\d+,\\d+.*")) {
      throw new BadInputException(
          file.toString(),
          "it writes numbers with a decimal comma ('" + word + "')",
          "write them with decimal points");
    }
    throw bad("'" + word + "' is no number");
  }

  private boolean skipSpace() throws IOException {
    while (at < end || fill()) {
      if (!isSpace(buffer[at])) {
        return true;
      }
      at++;
    }
    return false;
  }

  private boolean fill() throws IOException {
    at = 0;
    end = Math.max(0, in.read(buffer));
    return end > 0;
  }

  private static boolean isSpace(byte b) {
    return b == ' ' || b == '\n' || b == '\r' || b == '\t';
  }

  private BadInputException tooShort() {
    return bad("it ends after " + numbers + " cells, before the last one that its header counts");
  }

  private BadInputException bad(String what) {
    return new BadInputException(file.toString(), what, "get the file again from its source");
  }

  @Override
  public void close() throws IOException {
    in.close();
  }
}
