package org.yardfall.fieldwork;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.yardfall.site.Assumption;
import org.yardfall.site.BadInputException;

/**
 * Reduces level notes by the height of instrument: HI = elevation + backsight, elevation = HI −
 * sight. The misclosure is shared out in proportion to the set-ups passed, or to the distance where
 * every turning point has one; a point sighted between takes the share of its set-up.
 */
final class LevelReduction {

  /** An elevation on the way, before adjustment. */
  private record Reduced(
      LevelRow row, int setup, LevelPoint.Sight sight, BigDecimal hi, BigDecimal elevation) {}

  private final String source;
  private final List<LevelRow> rows;
  private final double unitM;
  private final LevelTolerance tolerance;
  private final List<Reduced> reduced = new ArrayList<>();
  private final List<String> warnings = new ArrayList<>();
  private final List<Assumption> assumptions = new ArrayList<>();
  private BigDecimal sumBack = BigDecimal.ZERO;
  private BigDecimal sumFore = BigDecimal.ZERO;
  private int setups;

  private LevelReduction(
      String source, List<LevelRow> rows, double unitM, LevelTolerance tolerance) {
    this.source = source;
    this.rows = rows;
    this.unitM = unitM;
    this.tolerance = tolerance;
  }

  static LevelNotes reduce(
      String source, List<LevelRow> rows, double unitM, LevelTolerance tolerance) {
    return new LevelReduction(source, rows, unitM, tolerance).reduce();
  }

  private LevelNotes reduce() {
    walk();
    Reduced first = reduced.get(0);
    Reduced last = lastTurn();
    Optional<BigDecimal> known = closingElevation(first, last);
    Optional<LevelNotes.Closure> closure = known.map(k -> closure(last, k));
    BigDecimal rise =
        last.row().elevation() != null && first.row().elevation() != null
            ? last.row().elevation().subtract(first.row().elevation())
            : last.elevation().subtract(first.elevation());
    return new LevelNotes(
        source,
        unitM,
        adjust(closure, last),
        sumBack,
        sumFore,
        rise,
        setups,
        closure,
        assumptions,
        warnings);
  }

  private void walk() {
    BigDecimal hi = null;
    for (LevelRow row : rows) {
      boolean start = reduced.isEmpty();
      BigDecimal elevation;
      LevelPoint.Sight sight;
      if (start) {
        elevation = startElevation(row);
        sight = LevelPoint.Sight.BENCHMARK;
      } else {
        checkSights(row);
        sight = row.fore() != null ? LevelPoint.Sight.FORESIGHT : LevelPoint.Sight.INTERMEDIATE;
        if (hi == null) {
          throw bad(row, "is sighted after the last foresight of a set-up without a new backsight");
        }
        elevation = hi.subtract(row.fore() != null ? row.fore() : row.between());
      }
      int setup = setups;
      if (row.fore() != null) {
        sumFore = sumFore.add(row.fore());
        hi = null;
      }
      BigDecimal newHi = null;
      if (row.back() != null) {
        sumBack = sumBack.add(row.back());
        newHi = elevation.add(row.back());
        hi = newHi;
        setups++;
      }
      compare(row, "height of instrument", row.hi(), row.back() == null ? null : newHi);
      compare(row, "elevation", start ? null : row.elevation(), elevation);
      reduced.add(new Reduced(row, setup, sight, newHi, elevation));
    }
    if (reduced.size() < 2) {
      throw new BadInputException(
          source, "holds one point only", "book at least a backsight and a sight to another point");
    }
    if (hi != null && sumFore.signum() == 0 && setups == 1) {
      warnings.add("one set-up without a foresight: nothing checks these levels");
    }
  }

  private BigDecimal startElevation(LevelRow row) {
    BigDecimal start = row.known() != null ? row.known() : row.elevation();
    if (start == null) {
      throw bad(row, "starts on no known elevation; give it in the first line under 'known'");
    }
    if (row.back() == null) {
      throw bad(row, "has no backsight; notes start with the backsight on the benchmark");
    }
    if (row.fore() != null || row.between() != null) {
      throw bad(row, "has a sight that no set-up was there to take; the first line is a backsight");
    }
    return start;
  }

  private void checkSights(LevelRow row) {
    if (row.fore() == null && row.between() == null) {
      throw bad(
          row,
          row.back() == null
              ? "has no reading"
              : "has a backsight but no foresight; a turning point needs both");
    }
    if (row.fore() != null && row.between() != null) {
      throw bad(row, "has an intermediate sight and a foresight; book two lines");
    }
    if (row.between() != null && row.back() != null) {
      throw bad(row, "has a backsight on an intermediate sight; a turning point needs a foresight");
    }
  }

  private void compare(LevelRow row, String what, BigDecimal booked, BigDecimal ours) {
    if (booked != null && ours != null && booked.compareTo(ours) != 0) {
      warnings.add(
          "line %d (%s): the booked %s is %s, the readings give %s"
              .formatted(
                  row.line(), row.point(), what, booked.toPlainString(), ours.toPlainString()));
    }
  }

  /** The last point that a foresight reached, or the start. */
  private Reduced lastTurn() {
    Reduced last = reduced.get(0);
    for (Reduced r : reduced) {
      if (r.sight() == LevelPoint.Sight.FORESIGHT) {
        last = r;
      }
    }
    return last;
  }

  private Optional<BigDecimal> closingElevation(Reduced first, Reduced last) {
    if (last.row().line() == first.row().line()) {
      return Optional.empty();
    }
    if (last.row().known() != null) {
      return Optional.of(last.row().known());
    }
    boolean loop =
        !first.row().point().isEmpty() && first.row().point().equalsIgnoreCase(last.row().point());
    if (!loop) {
      warnings.add(
          "the levels end on %s, which is not known: only the arithmetic is checked"
              .formatted(last.row().point().isEmpty() ? "a point" : last.row().point()));
    }
    return loop ? Optional.of(first.elevation()) : Optional.empty();
  }

  private LevelNotes.Closure closure(Reduced last, BigDecimal known) {
    BigDecimal misclosure = last.elevation().subtract(known);
    LevelTolerance rule = tolerance;
    double distanceM = last.row().distance() == null ? 0 : last.row().distance().doubleValue();
    if (rule.by() == LevelTolerance.By.DISTANCE && !(distanceM > 0)) {
      rule = LevelTolerance.THIRD_ORDER_SETUPS;
      assumptions.add(
          new Assumption(
              "levels.tolerance",
              "%.0f mm x sqrt(set-ups), no distance being noted"
                  .formatted(rule.coefficientM() * 1000),
              rule.source()));
    }
    double allowedM = rule.allowedM(setups, distanceM);
    return new LevelNotes.Closure(
        last.row().point(),
        known,
        misclosure,
        allowedM,
        Math.abs(misclosure.doubleValue() * unitM) <= allowedM + 1e-9,
        byDistance(last) ? LevelTolerance.By.DISTANCE : LevelTolerance.By.SETUPS);
  }

  /** Whether every point up to the last turning point has a distance, none less than before. */
  private boolean byDistance(Reduced last) {
    BigDecimal before = BigDecimal.ZERO;
    for (Reduced r : reduced) {
      BigDecimal distance =
          r.sight() == LevelPoint.Sight.BENCHMARK && r.row().distance() == null
              ? BigDecimal.ZERO
              : r.row().distance();
      if (distance == null) {
        return false;
      }
      if (distance.compareTo(before) < 0) {
        throw bad(r.row(), "has a smaller distance than the line before; count from the start");
      }
      before = distance;
      if (r.row().line() == last.row().line()) {
        return before.signum() > 0;
      }
    }
    return false;
  }

  private List<LevelPoint> adjust(Optional<LevelNotes.Closure> closure, Reduced last) {
    int places = 1 + rows.stream().mapToInt(LevelReduction::places).max().orElse(0);
    List<LevelPoint> points = new ArrayList<>();
    for (Reduced r : reduced) {
      BigDecimal correction =
          closure.map(c -> correction(c, r, last, places)).orElse(BigDecimal.ZERO);
      points.add(
          new LevelPoint(
              r.row().point(),
              r.row().line(),
              r.setup(),
              r.sight(),
              r.hi(),
              r.elevation(),
              correction,
              r.elevation().add(correction)));
    }
    return points;
  }

  private BigDecimal correction(LevelNotes.Closure closure, Reduced r, Reduced last, int places) {
    if (r.sight() == LevelPoint.Sight.BENCHMARK) {
      return BigDecimal.ZERO;
    }
    BigDecimal part;
    BigDecimal whole;
    if (closure.by() == LevelTolerance.By.DISTANCE) {
      whole = last.row().distance();
      part = r.row().distance() == null ? whole : r.row().distance().min(whole);
    } else {
      whole = BigDecimal.valueOf(last.setup());
      part = BigDecimal.valueOf(Math.min(r.setup(), last.setup()));
    }
    return closure.misclosure().negate().multiply(part).divide(whole, places, RoundingMode.HALF_UP);
  }

  private static int places(LevelRow row) {
    int most = 0;
    for (BigDecimal figure : new BigDecimal[] {row.back(), row.between(), row.fore()}) {
      most = figure == null ? most : Math.max(most, figure.scale());
    }
    return most;
  }

  private BadInputException bad(LevelRow row, String what) {
    String point = row.point().isEmpty() ? "" : " (" + row.point() + ")";
    return new BadInputException(source, "line " + row.line() + point + " " + what, "");
  }
}
