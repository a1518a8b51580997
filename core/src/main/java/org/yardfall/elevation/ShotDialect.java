package org.yardfall.elevation;

import java.io.IOException;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;

/**
 * How a point file writes its fields and numbers.
 *
 * @param delimiter what stands between fields
 * @param decimalComma whether a comma is the decimal sign
 * @param quoted whether fields may stand in double quotes
 */
record ShotDialect(char delimiter, boolean decimalComma, boolean quoted) {

  private static final char[] DELIMITERS = {'\t', ';', ',', ' '};
  private static final List<String> COMMENT_MARKS = List.of("#", "//", "!", "*", "--", "'");
  private static final int SAMPLED_RECORDS = 1000;

  /** The longest field that a point file has; longer ones come of a quote left open. */
  private static final int LONGEST_FIELD = 2000;

  /**
   * The dialect in which most of the sample's lines hold three numbers or more; empty where none
   * gives any.
   */
  static Optional<ShotDialect> of(String sample) {
    ShotDialect best = null;
    long bestLines = 0;
    for (boolean quoted : new boolean[] {true, false}) {
      for (char delimiter : DELIMITERS) {
        for (boolean decimalComma : new boolean[] {false, true}) {
          if (decimalComma && delimiter == ',') {
            continue;
          }
          ShotDialect dialect = new ShotDialect(delimiter, decimalComma, quoted);
          long lines = dialect.sample(sample).stream().filter(dialect::holdsShot).count();
          if (lines > bestLines) {
            best = dialect;
            bestLines = lines;
          }
        }
      }
    }
    return Optional.ofNullable(best);
  }

  private boolean holdsShot(List<String> fields) {
    return fields.stream().limit(6).filter(field -> Double.isFinite(number(field))).count() >= 3;
  }

  /** The first records of a text; none where the text cannot be taken apart this way. */
  List<List<String>> sample(String text) {
    List<List<String>> records = new ArrayList<>();
    try (CSVParser parser = format().parse(new StringReader(text))) {
      for (CSVRecord record : parser) {
        List<String> fields = fields(record);
        if (fields.stream().anyMatch(field -> field.length() > LONGEST_FIELD)) {
          return List.of();
        }
        if (!fields.isEmpty() && records.size() < SAMPLED_RECORDS) {
          records.add(fields);
        }
      }
    } catch (IOException | UncheckedIOException | IllegalStateException e) {
      return List.of();
    }
    return records;
  }

  CSVFormat format() {
    return CSVFormat.DEFAULT
        .builder()
        .setDelimiter(delimiter)
        .setQuote(quoted ? '"' : null)
        .setTrailingData(true)
        .setLenientEof(true)
        .setIgnoreEmptyLines(true)
        .setIgnoreSurroundingSpaces(delimiter != ' ')
        .get();
  }

  /**
   * A record's fields, trimmed; none of a comment. Where blanks part fields, several are as one.
   */
  List<String> fields(CSVRecord record) {
    List<String> fields = new ArrayList<>(record.size());
    for (String field : record) {
      String text = field.strip();
      if (delimiter != ' ' || !text.isEmpty()) {
        fields.add(text);
      }
    }
    boolean comment =
        !fields.isEmpty() && COMMENT_MARKS.stream().anyMatch(fields.get(0)::startsWith);
    boolean blank = fields.stream().allMatch(String::isEmpty);
    return comment || blank ? List.of() : fields;
  }

  /** The number that a field writes, NaN where it writes none. */
  double number(String field) {
    String text = field;
    if (decimalComma) {
      if (text.indexOf('.') >= 0) {
        return Double.NaN;
      }
      text = text.replace(',', '.');
    } else if (text.indexOf(',') >= 0) {
      if (!text.matches("[-+]?\\d{1,3}(,\\d{3})+(\\.\\d*)?")) {
        return Double.NaN;
      }
      text = text.replace(",", "");
    }
    if (text.isEmpty()) {
      return Double.NaN;
    }
    for (int i = 0; i < text.length(); i++) {
      if ("0123456789.+-eE".indexOf(text.charAt(i)) < 0) {
        return Double.NaN;
      }
    }
    try {
      return Double.parseDouble(text);
    } catch (NumberFormatException e) {
      return Double.NaN;
    }
  }

  /** In words. */
  String words() {
    String name =
        switch (delimiter) {
          case '\t' -> "tabs";
          case ';' -> "semicolons";
          case ',' -> "commas";
          default -> "blanks";
        };
    return "fields parted by " + name + (decimalComma ? ", decimal commas" : "");
  }
}
