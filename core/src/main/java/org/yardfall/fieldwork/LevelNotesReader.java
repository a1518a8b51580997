package org.yardfall.fieldwork;

import java.io.IOException;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.yardfall.site.BadInputException;
import org.yardfall.site.Quantities;

/** Reads a table of level notes as booked. */
final class LevelNotesReader {

  private static final long MOST_BYTES = 4_000_000;
  private static final Pattern UNIT =
      Pattern.compile("\\(\\s*(\\p{L}[\\p{L}-]*)\\s*\\)|\\[(\\w+)\\]");
  private static final Pattern NUMBER = Pattern.compile("[-+]?(?:\\d+\\.?\\d*|\\.\\d+)");

  private enum Column {
    POINT("point|pt|station|sta|name|id"),
    BACK("bs|backsight|back sight|\\+"),
    BETWEEN("is|intermediate|intermediate sight|ifs|ss|side shot"),
    FORE("fs|foresight|fore sight|-|−"),
    HI("hi|height of instrument|hpc|height of collimation|collimation"),
    ELEVATION("elev|elevation|rl|reduced level"),
    KNOWN("known|known elevation|benchmark|bm"),
    DISTANCE("distance|dist|chainage"),
    NOTE("note|notes|remark|remarks|description");

    private final Pattern names;

    Column(String names) {
      this.names = Pattern.compile(names);
    }
  }

  private final String source;
  private final Map<Column, Integer> columns = new EnumMap<>(Column.class);
  private final List<LevelRow> rows = new ArrayList<>();
  private double unitM;
  private double distanceUnitM = Double.NaN;
  private boolean decimalComma;

  private LevelNotesReader(String source, double unitM) {
    this.source = source;
    this.unitM = unitM;
  }

  static LevelNotesReader read(Path file, double unitM) {
    LevelNotesReader reader = new LevelNotesReader(String.valueOf(file.getFileName()), unitM);
    reader.readText(reader.text(file));
    return reader;
  }

  String source() {
    return source;
  }

  List<LevelRow> rows() {
    return rows;
  }

  double unitM() {
    return unitM;
  }

  private String text(Path file) {
    try {
      if (Files.size(file) > MOST_BYTES) {
        throw bad("is too large for level notes", "give the table of one line of levels");
      }
      String text =
          StandardCharsets.UTF_8
              .newDecoder()
              .decode(ByteBuffer.wrap(Files.readAllBytes(file)))
              .toString();
      return text.startsWith("\uFEFF") ? text.substring(1) : text;
    } catch (CharacterCodingException e) {
      throw bad("is not UTF-8 text", "save it as UTF-8 CSV");
    } catch (IOException e) {
      throw bad("cannot be read (" + e.getMessage() + ")", "give a readable CSV file");
    }
  }

  private void readText(String text) {
    if (text.isBlank()) {
      throw bad("is empty", "give level notes with a header line: point, BS, IS, FS, known");
    }
    String head = text.strip().lines().findFirst().orElse("");
    char separator = head.indexOf('\t') >= 0 ? '\t' : head.indexOf(';') >= 0 ? ';' : ',';
    decimalComma = separator != ',';
    CSVFormat format =
        CSVFormat.DEFAULT
            .builder()
            .setDelimiter(separator)
            .setTrim(true)
            .setIgnoreEmptyLines(true)
            .get();
    try {
      int leading = (int) text.lines().takeWhile(String::isBlank).count();
      var parser = format.parse(new StringReader(text));
      boolean first = true;
      for (CSVRecord line : parser) {
        int number = (int) Math.max(parser.getCurrentLineNumber(), leading + 1L);
        if (first) {
          readHeader(line);
          first = false;
        } else if (line.stream().anyMatch(cell -> !cell.isEmpty())) {
          rows.add(row(line, number));
        }
      }
    } catch (IOException | UncheckedIOException | IllegalStateException e) {
      throw bad("is no table (" + e.getMessage() + ")", "give it as CSV");
    }
    if (rows.isEmpty()) {
      throw bad("has no lines below its header", "add a line for each point");
    }
    if (Double.isNaN(unitM)) {
      throw bad("does not say its unit", "write it in the header, as in: BS (ft), or give it");
    }
  }

  private void readHeader(CSVRecord line) {
    for (int i = 0; i < line.size(); i++) {
      String cell = line.get(i).toLowerCase(Locale.ROOT);
      String bare = UNIT.matcher(cell).replaceAll("").replaceAll("\\([-+−]\\)", "");
      String name = bare.replaceAll("[._]+", " ").strip();
      String packed = name.replaceAll("\\b(\\p{L}) (?=\\p{L}\\b)", "$1");
      for (Column column : Column.values()) {
        if (column.names.matcher(name).matches() || column.names.matcher(packed).matches()) {
          if (columns.putIfAbsent(column, i) != null) {
            throw bad("has two columns named " + line.get(i), "leave one out");
          }
          takeUnit(column, line.get(i));
        }
      }
    }
    if (!columns.containsKey(Column.BACK) || !columns.containsKey(Column.FORE)) {
      throw bad(
          "has no header line with BS and FS",
          "start it with: point, BS, IS, FS, known (and HI, elevation, distance where booked)");
    }
  }

  private void takeUnit(Column column, String cell) {
    Matcher unit = UNIT.matcher(cell);
    if (column == Column.POINT || column == Column.NOTE || !unit.find()) {
      return;
    }
    String word = unit.group(1) != null ? unit.group(1) : unit.group(2);
    double metres;
    try {
      metres = Quantities.lengthUnitM(word);
    } catch (IllegalArgumentException e) {
      throw bad("has the unit '" + word + "' in its header, which is unknown", "give m, ft, ftUS");
    }
    if (column == Column.DISTANCE) {
      distanceUnitM = metres;
    } else if (Double.isNaN(unitM) || columns.size() == 1) {
      unitM = metres;
    } else if (unitM != metres) {
      throw bad("names more than one unit for its readings", "keep notes in one unit");
    }
  }

  private LevelRow row(CSVRecord line, int number) {
    BigDecimal distance = figure(line, Column.DISTANCE, number);
    double inMetres = Double.isNaN(distanceUnitM) ? unitM : distanceUnitM;
    return new LevelRow(
        number,
        cell(line, Column.POINT),
        figure(line, Column.BACK, number),
        figure(line, Column.BETWEEN, number),
        figure(line, Column.FORE, number),
        figure(line, Column.HI, number),
        figure(line, Column.ELEVATION, number),
        figure(line, Column.KNOWN, number),
        distance == null ? null : distance.multiply(BigDecimal.valueOf(inMetres)));
  }

  private String cell(CSVRecord line, Column column) {
    Integer i = columns.get(column);
    return i == null || i >= line.size() ? "" : line.get(i);
  }

  private BigDecimal figure(CSVRecord line, Column column, int number) {
    String cell = cell(line, column);
    if (cell.isEmpty()) {
      return null;
    }
    String plain = (decimalComma ? cell.replace(',', '.') : cell).replace('−', '-');
    if (!NUMBER.matcher(plain).matches() || plain.length() > 20) {
      String shown = cell.length() > 20 ? cell.substring(0, 20) + "…" : cell;
      throw bad("line " + number + ": '" + shown + "' is no reading", "give a plain number there");
    }
    return new BigDecimal(plain);
  }

  private BadInputException bad(String what, String mend) {
    return new BadInputException(source, what, mend);
  }
}
