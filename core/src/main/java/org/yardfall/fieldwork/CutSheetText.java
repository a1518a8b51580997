package org.yardfall.fieldwork;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Collectors;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.trench.TrenchSection;

/** A cut sheet as a table and as a page. */
final class CutSheetText {

  /** What the crew must hear before it digs. */
  private static final List<String> CAUTIONS =
      List.of(
          "Before digging have the utilities located and marked; dig by hand near the marks.",
          "Nobody enters a trench 5 ft (1.5 m) deep or more without protection against cave-in; a"
              + " shallower one may need it too (OSHA 29 CFR 1926.652).",
          "Cuts rest on the planned ground. Trust the rod on the benchmark, not the cut.");

  private CutSheetText() {}

  static String csv(CutSheet sheet, FieldUnits units) {
    String unit = "_" + units.unit();
    CsvText csv =
        new CsvText(
            "line",
            "station" + unit,
            "why",
            "x",
            "y",
            "ground" + unit,
            "invert" + unit,
            "trench_bottom" + unit,
            "cut" + unit,
            "grade_percent",
            "rod_invert" + unit,
            "rod_bottom" + unit,
            "left_x",
            "left_y",
            "right_x",
            "right_y",
            "pipe");
    for (CutSheet.Line line : sheet.lines()) {
      for (CutRow row : line.rows()) {
        csv.row(
            line.name(),
            units.station(row.stationM()),
            why(row, units, "; "),
            x(sheet, Optional.of(row.at())),
            y(sheet, Optional.of(row.at())),
            units.length(row.groundM()),
            units.length(row.invertM()),
            units.length(row.bottomM()),
            units.length(row.cutM()),
            grade(row.grade()),
            optional(row.invertRodM(), units),
            optional(row.bottomRodM(), units),
            x(sheet, row.left()),
            y(sheet, row.left()),
            x(sheet, row.right()),
            y(sheet, row.right()),
            row.pipe());
      }
    }
    return csv.toString();
  }

  static String page(CutSheet sheet, FieldUnits units) {
    StakeSettings settings = sheet.settings();
    PrintPage page = new PrintPage("Cut sheet " + sheet.route().id());
    page.paragraph(intro(sheet, units));
    settings
        .setup()
        .ifPresent(
            s ->
                page.paragraph(
                    s.backsightM() == 0
                        ? "Height of instrument " + units.words(s.hiM()) + "."
                        : "Benchmark %s, rod on it %s: height of instrument %s."
                            .formatted(
                                units.words(s.benchmarkM()),
                                units.words(s.backsightM()),
                                units.words(s.hiM()))));
    page.list(sheet.warnings(units));
    page.list(CAUTIONS);
    boolean rods = settings.setup().isPresent();
    for (CutSheet.Line line : sheet.lines()) {
      String name = "main".equals(line.name()) ? "Main line" : capital(line.name());
      page.heading(name);
      page.table(
          "Cut sheet " + sheet.route().id() + ", " + Prover.spoken(line.name()),
          heads(units, rods));
      for (CutRow row : line.rows()) {
        page.row(cells(row, units, rods));
      }
      page.endTable();
    }
    if (settings.offsetM() > 0) {
      coordinates(sheet, units, page);
    }
    return page.toString();
  }

  private static String intro(CutSheet sheet, FieldUnits units) {
    StakeSettings settings = sheet.settings();
    String offset =
        settings.offsetM() == 0
            ? "Stakes on the centre line."
            : "Offset stakes %s from the centre line, %s looking downstream."
                .formatted(
                    units.words(settings.offsetM()),
                    settings.side() == StakeSettings.Side.BOTH
                        ? "on both sides"
                        : "on the " + Words.of(settings.side()));
    return "Stations run downstream, in "
        + (units.form() == FieldUnits.Form.METRES ? "metres" : "feet")
        + ". Trench "
        + units.words(settings.section().widthM())
        + " wide, dug "
        + dug(sheet, units)
        + " below the invert (pipe wall and bed). "
        + offset;
  }

  /** How far the trench goes below the invert, by pipe where the pipes differ. */
  private static String dug(CutSheet sheet, FieldUnits units) {
    TrenchSection section = sheet.settings().section();
    Map<String, String> byPipe = new LinkedHashMap<>();
    for (List<LaidPipe> line : sheet.pipes()) {
      for (LaidPipe pipe : line) {
        byPipe.putIfAbsent(pipe.words(), units.words(pipe.in(section).dugDepthM(0)));
      }
    }
    if (Set.copyOf(byPipe.values()).size() < 2) {
      return byPipe.values().stream()
          .findFirst()
          .orElseGet(() -> units.words(section.dugDepthM(0)));
    }
    return byPipe.entrySet().stream()
        .map(e -> e.getValue() + " under " + e.getKey())
        .collect(Collectors.joining(", "));
  }

  private static List<String> heads(FieldUnits units, boolean rods) {
    List<String> heads = new ArrayList<>(List.of("Station", "<At", "Ground", "Invert"));
    heads.add("Cut to bottom");
    if (rods) {
      heads.add("Rod on bottom");
      heads.add("Rod on invert");
    } else {
      heads.add("Bottom");
    }
    heads.add("Grade to next %");
    return heads.stream().map(h -> h.equals("Ground") ? "Ground " + units.unit() : h).toList();
  }

  private static List<String> cells(CutRow row, FieldUnits units, boolean rods) {
    String at = why(row, units, ", ");
    List<String> cells = new ArrayList<>();
    cells.add("!" + units.station(row.stationM()));
    cells.add("<" + (at.equals("interval") ? "" : at));
    cells.add(units.length(row.groundM()));
    cells.add(units.length(row.invertM()));
    cells.add("!" + units.length(row.cutM()));
    if (rods) {
      cells.add("!" + optional(row.bottomRodM(), units));
      cells.add(optional(row.invertRodM(), units));
    } else {
      cells.add(units.length(row.bottomM()));
    }
    cells.add(grade(row.grade()));
    return cells;
  }

  private static String why(CutRow row, FieldUnits units, String between) {
    return String.join(between, row.why())
        + (row.dropM() > 0 ? ", " + units.words(row.dropM()) + " down" : "");
  }

  private static void coordinates(CutSheet sheet, FieldUnits units, PrintPage page) {
    StakeSettings settings = sheet.settings();
    page.heading("Offset stakes: coordinates in the plan's CRS");
    boolean left = settings.side() != StakeSettings.Side.RIGHT;
    boolean right = settings.side() != StakeSettings.Side.LEFT;
    List<String> heads = new ArrayList<>(List.of("<Line", "Station"));
    if (left) {
      heads.addAll(List.of("Left x", "Left y"));
    }
    if (right) {
      heads.addAll(List.of("Right x", "Right y"));
    }
    page.table(heads);
    for (CutSheet.Line line : sheet.lines()) {
      for (CutRow row : line.rows()) {
        List<String> cells = new ArrayList<>(List.of("<" + line.name()));
        cells.add(units.station(row.stationM()));
        if (left) {
          cells.addAll(List.of(x(sheet, row.left()), y(sheet, row.left())));
        }
        if (right) {
          cells.addAll(List.of(x(sheet, row.right()), y(sheet, row.right())));
        }
        page.row(cells);
      }
    }
    page.endTable();
  }

  private static String x(CutSheet sheet, Optional<Coordinate> at) {
    return at.map(c -> crs(sheet, c.x)).orElse("");
  }

  private static String y(CutSheet sheet, Optional<Coordinate> at) {
    return at.map(c -> crs(sheet, c.y)).orElse("");
  }

  private static String crs(CutSheet sheet, double metres) {
    return FieldUnits.fixed(metres / sheet.settings().metresPerUnit(), 3);
  }

  private static String optional(OptionalDouble value, FieldUnits units) {
    return value.isPresent() ? units.length(value.getAsDouble()) : "";
  }

  private static String grade(double grade) {
    return Double.isNaN(grade) ? "" : String.format(Locale.ROOT, "%.2f", grade * 100);
  }

  private static String capital(String text) {
    return Character.toUpperCase(text.charAt(0)) + text.substring(1);
  }
}
