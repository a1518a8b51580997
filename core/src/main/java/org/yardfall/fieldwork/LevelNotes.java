package org.yardfall.fieldwork;

import java.math.BigDecimal;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.yardfall.site.Assumption;
import org.yardfall.site.BadInputException;

/**
 * Differential levelling, reduced from the notebook: height of instrument by height of instrument,
 * checked, and adjusted where it closes on a known elevation.
 *
 * <p>Figures are in the notes' own unit and reduced in decimals, so that no digit is lost; {@link
 * #metres} converts.
 *
 * @param source the file
 * @param unitM the notes' unit in metres
 * @param points the points in the order sighted, the starting benchmark first
 * @param sumBack sum of the backsights
 * @param sumFore sum of the foresights
 * @param rise last elevation minus first, along the turning points; as booked where the notes book
 *     elevations
 * @param setups number of set-ups
 * @param closure how it closes; empty where it ends on a point that is not known
 * @param assumptions what was assumed
 * @param warnings what was odd, in words
 */
public record LevelNotes(
    String source,
    double unitM,
    List<LevelPoint> points,
    BigDecimal sumBack,
    BigDecimal sumFore,
    BigDecimal rise,
    int setups,
    Optional<Closure> closure,
    List<Assumption> assumptions,
    List<String> warnings) {

  /** Keeps the lists to itself. */
  public LevelNotes {
    points = List.copyOf(points);
    assumptions = List.copyOf(assumptions);
    warnings = List.copyOf(warnings);
  }

  /**
   * How levelling closes on a known elevation.
   *
   * @param benchmark the point it closes on
   * @param known its known elevation, in the notes' unit
   * @param misclosure levelled minus known, in the notes' unit
   * @param allowedM allowed misclosure in metres
   * @param within whether the misclosure is within what is allowed
   * @param by what the misclosure was shared out by
   */
  public record Closure(
      String benchmark,
      BigDecimal known,
      BigDecimal misclosure,
      double allowedM,
      boolean within,
      LevelTolerance.By by) {}

  /**
   * Reads and reduces a notebook table (CSV, commas, semicolons or tabs) with a header line.
   * Columns, in any order: {@code point, BS, IS, FS}, and where wanted {@code HI, elevation}
   * (checked against the readings), {@code known} (elevation of a benchmark), {@code distance}
   * (from the start, in the notes' unit unless its header says otherwise). A line a point: a
   * turning point has its foresight and its next backsight in one line. The first line's {@code
   * known}, or else its {@code elevation}, is the start; notes that come back to the first point
   * close on it.
   *
   * @param file the file, UTF-8
   * @param unitM unit of the readings in metres where the header does not name it; NaN: it must
   * @param tolerance the misclosure that is allowed
   * @throws BadInputException if the notes cannot be read or reduced
   */
  public static LevelNotes read(Path file, double unitM, LevelTolerance tolerance) {
    LevelNotesReader reader = LevelNotesReader.read(file, unitM);
    return LevelReduction.reduce(reader.source(), reader.rows(), reader.unitM(), tolerance);
  }

  /**
   * The arithmetic check: sum of backsights minus sum of foresights, less the rise. Not 0 where the
   * booked elevations were reckoned wrongly.
   */
  public BigDecimal arithmeticError() {
    return sumBack.subtract(sumFore).subtract(rise);
  }

  /** Whether the arithmetic checks and the levelling, where it closes, is within its tolerance. */
  public boolean passed() {
    return arithmeticError().signum() == 0 && closure.map(Closure::within).orElse(true);
  }

  /** A figure of the notes in metres. */
  public double metres(BigDecimal figure) {
    return figure.doubleValue() * unitM;
  }

  /** The last point of the given name. */
  public Optional<LevelPoint> point(String name) {
    return points.stream().filter(p -> p.name().equals(name)).reduce((a, b) -> b);
  }

  /** The checks in sentences: arithmetic, misclosure against what is allowed, what was odd. */
  public List<String> sentences() {
    FieldUnits units =
        new FieldUnits(unitM == 1 ? FieldUnits.Form.METRES : FieldUnits.Form.FEET, unitM);
    List<String> say = new ArrayList<>();
    say.add(
        "Backsights %s less foresights %s is %s; last elevation less first is %s: %s."
            .formatted(
                sumBack.toPlainString(),
                sumFore.toPlainString(),
                sumBack.subtract(sumFore).toPlainString(),
                rise.toPlainString(),
                arithmeticError().signum() == 0
                    ? "the arithmetic checks"
                    : "the arithmetic is out by " + arithmeticError().abs().toPlainString()));
    closure.ifPresent(
        c ->
            say.add(
                "Closes on %s %s off (%s allowed): %s; shared out by %s."
                    .formatted(
                        c.benchmark().isEmpty() ? "the benchmark" : c.benchmark(),
                        c.misclosure().toPlainString() + " " + units.unit(),
                        units.words(c.allowedM()),
                        c.within() ? "within tolerance" : "OUT OF TOLERANCE, level it again",
                        c.by() == LevelTolerance.By.DISTANCE ? "distance" : "set-ups")));
    say.addAll(warnings);
    return say;
  }

  /**
   * The reduced points as CSV in the notes' unit.
   *
   * @param grade an elevation to cut or fill to, for a last column; cuts are positive
   */
  public String csv(Optional<BigDecimal> grade) {
    List<String> header = header(grade);
    CsvText csv = new CsvText(header.toArray());
    points.forEach(point -> csv.row(cells(point, grade).toArray()));
    return csv.toString();
  }

  /** The same for a terminal: a header and a line a point, in columns. */
  public List<String> table(Optional<BigDecimal> grade) {
    List<List<String>> rows = new ArrayList<>(List.of(header(grade)));
    points.forEach(point -> rows.add(cells(point, grade)));
    int[] widths = new int[rows.get(0).size()];
    for (List<String> row : rows) {
      for (int i = 0; i < widths.length; i++) {
        widths[i] = Math.max(widths[i], row.get(i).length());
      }
    }
    List<String> lines = new ArrayList<>();
    for (List<String> row : rows) {
      StringBuilder line = new StringBuilder();
      for (int i = 0; i < widths.length; i++) {
        String pad = " ".repeat(widths[i] - row.get(i).length());
        boolean words = i == 0 || i == 2;
        line.append(i == 0 ? "" : "  ").append(words ? row.get(i) + pad : pad + row.get(i));
      }
      lines.add(line.toString().stripTrailing());
    }
    return lines;
  }

  private static List<String> header(Optional<BigDecimal> grade) {
    List<String> names =
        new ArrayList<>(List.of("point", "set_up", "sight", "hi", "elevation", "adjusted"));
    grade.ifPresent(g -> names.add("cut_to_" + g.toPlainString()));
    return names;
  }

  private static List<String> cells(LevelPoint point, Optional<BigDecimal> grade) {
    List<String> cells =
        new ArrayList<>(
            List.of(
                point.name(),
                String.valueOf(point.setup()),
                Words.of(point.sight()),
                point.hi() == null ? "" : point.hi().toPlainString(),
                point.elevation().toPlainString(),
                point.adjusted().toPlainString()));
    grade.ifPresent(g -> cells.add(point.adjusted().subtract(g).toPlainString()));
    return cells;
  }
}
