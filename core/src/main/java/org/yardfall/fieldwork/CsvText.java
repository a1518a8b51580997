package org.yardfall.fieldwork;

import java.io.IOException;
import java.io.UncheckedIOException;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;

/** A table as CSV (RFC 4180), safe to open in a spreadsheet. */
final class CsvText {

  private final StringBuilder text = new StringBuilder();
  private final CSVPrinter printer;

  CsvText(Object... header) {
    try {
      printer = new CSVPrinter(text, CSVFormat.RFC4180);
      printer.printRecord(header);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  CsvText row(Object... cells) {
    try {
      for (Object cell : cells) {
        printer.print(cell instanceof String words ? guarded(words) : cell);
      }
      printer.println();
      return this;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** A text that a spreadsheet would take for a formula gets an apostrophe; numbers stay. */
  private static String guarded(String words) {
    boolean formula =
        !words.isEmpty()
            && "=+-@\t\r".indexOf(words.charAt(0)) >= 0
            && !words.matches("[-+]?[0-9.]+(' [0-9 /]+\")?");
    return formula ? "'" + words : words;
  }

  @Override
  public String toString() {
    return text.toString();
  }
}
