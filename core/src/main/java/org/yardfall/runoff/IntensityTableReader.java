package org.yardfall.runoff;

import java.io.IOException;
import java.io.Reader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.regex.MatchResult;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.yardfall.site.BadInputException;

/**
 * Reads a rainfall atlas's table of intensities or depths by duration and return period (CSV).
 *
 * <p>The header line is the first whose first cell speaks of duration and whose other cells are
 * return periods in years ({@code 10}, {@code 10-yr}) or annual probabilities ({@code 1/10}). Lines
 * above it may say anything; the unit must stand in them or in the header: {@code in/h}, {@code
 * mm/h} (intensities), or {@code in}, {@code mm} (depths). A duration carries its own unit ({@code
 * 5-min:}, {@code 2 h}, {@code 1-day}) or takes the one in the header ({@code duration (min)}).
 */
final class IntensityTableReader {

  private static final Pattern DURATION =
      Pattern.compile(
          "([-+]?[0-9]*\\.?[0-9]+)[\\s-]*(s|sec|seconds?|m|min|minutes?|h|hr|hours?|d|days?)?:?");
  private static final Pattern PERIOD =
      Pattern.compile("(?:1\\s*/\\s*)?([0-9]*\\.?[0-9]+)[\\s-]*(?:y|yr|yrs|years?)?:?");
  private static final Pattern UNIT =
      Pattern.compile(
          "\\b(in(?=\\s*(?:/|per|\\)))|inch|inches|mm|millimet(?:er|re)s?)\\b\\s*(?:(?:/|per)\\s*(h|hr|hour)\\b)?");
  private static final double INCH_M = 0.0254;
  private static final double HOUR_S = 3600;

  private final String source;
  private MatchResult unit;

  private IntensityTableReader(Path file) {
    this.source = String.valueOf(file.getFileName());
  }

  /**
   * The tables in a file by return period in years.
   *
   * @throws BadInputException if the file cannot be read or used
   */
  static SortedMap<Double, IntensityTable> read(Path file) {
    IntensityTableReader reader = new IntensityTableReader(file);
    CSVFormat format = CSVFormat.DEFAULT.builder().setIgnoreEmptyLines(true).setTrim(true).get();
    try (Reader in = Files.newBufferedReader(file, StandardCharsets.UTF_8)) {
      return reader.tables(format.parse(in).getRecords());
    } catch (IOException | IllegalStateException | java.io.UncheckedIOException e) {
      throw reader.bad("cannot be read (" + e.getMessage() + ")", "give a readable CSV file");
    }
  }

  private SortedMap<Double, IntensityTable> tables(List<CSVRecord> lines) {
    int head = 0;
    while (head < lines.size() && !isHeader(lines.get(head))) {
      lookForUnit(lines.get(head));
      head++;
    }
    if (head == lines.size()) {
      throw bad(
          "has no header line", "start it with: duration, 2, 10, 100 (return periods, years)");
    }
    CSVRecord header = lines.get(head);
    lookForUnit(header);
    if (unit == null) {
      throw bad(
          "does not say its unit", "write in/h or mm/h in the header, as in: duration (in/h)");
    }
    List<Double> durations = new ArrayList<>();
    List<CSVRecord> rows = new ArrayList<>();
    for (CSVRecord line : lines.subList(head + 1, lines.size())) {
      if (cells(line) > 1) { // a footer of one cell is a note
        durations.add(duration(line, header.get(0)));
        rows.add(line);
      }
    }
    if (rows.isEmpty()) {
      throw bad("has no lines below its header", "add one line for each duration");
    }
    SortedMap<Double, IntensityTable> tables = new TreeMap<>();
    for (int col = 1; col < header.size(); col++) {
      if (!header.get(col).isEmpty()) {
        double years = period(header.get(col)).orElseThrow();
        if (tables.put(years, column(durations, rows, col)) != null) {
          throw bad("has two columns for " + years(years), "keep one");
        }
      }
    }
    return tables;
  }

  private IntensityTable column(List<Double> durations, List<CSVRecord> rows, int col) {
    double[] seconds = new double[rows.size()];
    double[] rate = new double[rows.size()];
    boolean depth = unit.group(2) == null;
    double lengthM = unit.group(1).startsWith("in") ? INCH_M : 0.001;
    for (int i = 0; i < rows.size(); i++) {
      CSVRecord row = rows.get(i);
      seconds[i] = durations.get(i);
      double value = number(row, col);
      rate[i] = value * lengthM / (depth ? seconds[i] : HOUR_S);
      if (!(value > 0)) {
        throw bad(at(row) + "rain of " + row.get(col), "rain must be above 0");
      }
      if (i > 0 && !(seconds[i] > seconds[i - 1])) {
        throw bad(
            at(row) + "duration " + row.get(0) + " does not follow " + rows.get(i - 1).get(0),
            "sort the lines by rising duration, each once");
      }
      if (i > 0 && rate[i] > rate[i - 1]) {
        throw bad(
            at(row) + "intensity rises with duration in column " + (col + 1),
            "check the unit and the copied numbers");
      }
    }
    return IntensityTable.of(seconds, rate);
  }

  private static boolean isHeader(CSVRecord line) {
    if (line.size() < 2 || !line.get(0).toLowerCase(Locale.ROOT).contains("duration")) {
      return false;
    }
    for (int i = 1; i < line.size(); i++) {
      if (!line.get(i).isEmpty() && period(line.get(i)).isEmpty()) {
        return false;
      }
    }
    return cells(line) > 1;
  }

  private void lookForUnit(CSVRecord line) {
    for (String cell : line) {
      Matcher m = UNIT.matcher(cell.toLowerCase(Locale.ROOT));
      // an intensity outranks a bare length, which may be a word of the heading
      while (m.find()) {
        if (unit == null || (unit.group(2) == null && m.group(2) != null)) {
          unit = m.toMatchResult();
        }
      }
    }
  }

  private double duration(CSVRecord line, String heading) {
    Matcher m = DURATION.matcher(line.get(0).toLowerCase(Locale.ROOT));
    if (!m.matches()) {
      throw bad(
          at(line) + "duration '" + line.get(0) + "' is not understood", "write 15 min or 2 h");
    }
    String word = m.group(2);
    if (word == null) {
      Matcher h =
          Pattern.compile("\\b(min|minutes?|h|hr|hours?)\\b(?!\\s*\\^)")
              .matcher(
                  heading.toLowerCase(Locale.ROOT).replaceAll("(/|per)\\s*(h|hr|hour)\\b", ""));
      if (!h.find()) {
        throw bad(at(line) + "duration " + line.get(0) + " has no unit", "write 15 min or 2 h");
      }
      word = h.group(1);
    }
    double seconds =
        Double.parseDouble(m.group(1))
            * switch (word.charAt(0)) {
              case 's' -> 1;
              case 'm' -> 60;
              case 'h' -> HOUR_S;
              default -> 24 * HOUR_S;
            };
    if (!(seconds > 0)) {
      throw bad(at(line) + "duration of " + line.get(0), "a duration must be above 0");
    }
    return seconds;
  }

  private double number(CSVRecord row, int col) {
    String text = col < row.size() ? row.get(col) : "";
    try {
      return Double.parseDouble(text);
    } catch (NumberFormatException e) {
      throw bad(
          at(row) + "'" + text + "' in column " + (col + 1) + " is not a number",
          "write every intensity with a decimal point");
    }
  }

  private static OptionalDouble period(String cell) {
    String plain = cell.toLowerCase(Locale.ROOT).replaceAll("\\(.*\\)", "").trim();
    Matcher m = PERIOD.matcher(plain);
    if (!m.matches()) {
      return OptionalDouble.empty();
    }
    double years = Double.parseDouble(m.group(1));
    return years > 0 ? OptionalDouble.of(years) : OptionalDouble.empty();
  }

  private static int cells(CSVRecord line) {
    return (int) line.stream().filter(c -> !c.isEmpty()).count();
  }

  static String years(double years) {
    return plain(years) + " years";
  }

  /** A number without needless decimals. */
  static String plain(double value) {
    return value == Math.rint(value) ? String.valueOf((long) value) : String.valueOf(value);
  }

  private static String at(CSVRecord row) {
    return "line " + row.getRecordNumber() + ": ";
  }

  private BadInputException bad(String what, String mend) {
    return new BadInputException(source, what, mend);
  }
}
