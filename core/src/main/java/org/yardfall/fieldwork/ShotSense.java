package org.yardfall.fieldwork;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import org.yardfall.elevation.Shot;
import org.yardfall.site.BadInputException;
import org.yardfall.site.WorkingCrs;

/**
 * Makes sure, before any verdict, that shots can be of the planned pipe at all: northing and
 * easting in order, one unit, one datum.
 */
final class ShotSense {

  /** A shot farther from every line than this is not of the pipe. */
  static final double FAR_M = 3.0;

  private static final String SOURCE = "shots";

  /** Lines this much farther than the nearest are about as near. */
  private static final double MEET_M = 0.10;

  private static final double UNIT_CHANGE_M = 5.0;
  private static final double FITS_M = 0.5;
  private static final double OTHER_DATUM_M = 1.0;
  private static final double FOOT = WorkingCrs.INTERNATIONAL_FOOT_M;

  private final List<PlannedLine> lines;
  private final List<Shot> shots;
  private final double rodToInvertM;

  private ShotSense(List<PlannedLine> lines, List<Shot> shots, double rodToInvertM) {
    this.lines = lines;
    this.shots = shots;
    this.rodToInvertM = rodToInvertM;
  }

  /**
   * Refuses shots that cannot be of the pipe, each case in one line.
   *
   * @throws BadInputException if there are fewer than two shots, or the file's order, units or
   *     datum are not the plan's
   */
  static void check(List<PlannedLine> lines, List<Shot> shots, ProofLimits limits) {
    new ShotSense(lines, shots, limits.rodToInvertM()).check();
  }

  private void check() {
    if (shots.isEmpty()) {
      throw bad("there are none", "shoot the laid pipe at every joint and give the file");
    }
    String broken =
        ids(
            shots.stream()
                .filter(
                    s ->
                        !Double.isFinite(s.x())
                            || !Double.isFinite(s.y())
                            || !Double.isFinite(s.z()))
                .toList());
    if (!broken.isEmpty()) {
      throw bad(broken + " has a coordinate that is no number", "correct it or leave it out");
    }
    if (shots.size() == 1) {
      throw bad(
          "one shot shows a level but no grade",
          "shoot the pipe at every joint, both ends included");
    }
    checkPlan();
    checkElevations();
  }

  private void checkPlan() {
    int near = near(s -> s);
    Map<String, UnaryOperator<Shot>> mends = new TreeMap<>();
    mends.put("northing and easting are in the wrong order", s -> moved(s, s.y(), s.x()));
    mends.put("the coordinates are in feet, not metres", s -> scaled(s, FOOT));
    mends.put("the coordinates are in metres, not feet", s -> scaled(s, 1 / FOOT));
    mends.put(
        "northing and easting are in the wrong order, and in feet",
        s -> scaled(moved(s, s.y(), s.x()), FOOT));
    for (Map.Entry<String, UnaryOperator<Shot>> mend : mends.entrySet()) {
      int mended = near(mend.getValue());
      if (mended >= 2 && mended > 2 * near) {
        throw bad(
            "%d of %d lie on the planned line if %s, and %d as given"
                .formatted(mended, shots.size(), mend.getKey(), near),
            "give the file's order and unit");
      }
    }
    if (near < 2) {
      double closest = shots.stream().mapToDouble(s -> distance(s)).min().orElseThrow();
      throw bad(
          "%s within %.0f m of the planned line; the closest is %.1f m off"
              .formatted(near == 0 ? "none lies" : "only one lies", FAR_M, closest),
          "check the route, the CRS and the order of the columns");
    }
    List<Shot> otherUnit =
        shots.stream()
            .filter(s -> distance(s) > FAR_M)
            .filter(
                s -> distance(scaled(s, FOOT)) <= FAR_M || distance(scaled(s, 1 / FOOT)) <= FAR_M)
            .toList();
    if (!otherUnit.isEmpty() && far()) {
      throw mixed(otherUnit, "coordinates");
    }
  }

  /** Whether the coordinates are large enough for a foot taken for a metre to show. */
  private boolean far() {
    return lines.get(0).stations().stream()
        .allMatch(s -> Math.hypot(s.x(), s.y()) * (1 - FOOT) > 10 * FAR_M);
  }

  private void checkElevations() {
    List<Shot> near = shots.stream().filter(s -> distance(s) <= FAR_M).toList();
    double[] off = near.stream().mapToDouble(s -> s.z() - planned(s)).sorted().toArray();
    double median = (off[(off.length - 1) / 2] + off[off.length / 2]) / 2;
    List<Shot> otherUnit =
        near.stream()
            .filter(s -> Math.abs(s.z() - planned(s)) > UNIT_CHANGE_M)
            .filter(
                s ->
                    Math.abs(s.z() * FOOT - planned(s)) < FITS_M
                        || Math.abs(s.z() / FOOT - planned(s)) < FITS_M)
            .toList();
    if (otherUnit.size() * 2 > near.size()) {
      boolean feet = otherUnit.get(0).z() > planned(otherUnit.get(0));
      throw bad(
          "their elevations fit the plan only if they are in "
              + (feet ? "feet, not metres" : "metres, not feet"),
          "give the unit of the elevations");
    }
    if (!otherUnit.isEmpty()) {
      throw mixed(otherUnit, "elevations");
    }
    if (Math.abs(median) > OTHER_DATUM_M) {
      throw bad(
          "they lie %.2f m %s the plan throughout"
              .formatted(Math.abs(median), median > 0 ? "above" : "below"),
          "level from the benchmark that the plan stands on");
    }
  }

  private BadInputException mixed(List<Shot> other, String what) {
    return bad(
        "units seem to be mixed: the %s of %s fit the plan only in another unit than the rest"
            .formatted(what, ids(other)),
        "give all shots in one unit");
  }

  private int near(UnaryOperator<Shot> mend) {
    return (int) shots.stream().filter(s -> distance(mend.apply(s)) <= FAR_M).count();
  }

  private double distance(Shot s) {
    return lines.stream().mapToDouble(l -> l.beside(s.x(), s.y()).distanceM()).min().orElseThrow();
  }

  private double planned(Shot s) {
    PlannedLine nearest = nearest(lines, s, rodToInvertM);
    return nearest.at(nearest.beside(s.x(), s.y()).stationM()).invertM() + rodToInvertM;
  }

  /**
   * The line that a shot is of: the nearest, and where lines meet, so that several are about as
   * near, the one closest in plan and level together; the earlier of equals.
   */
  static PlannedLine nearest(List<PlannedLine> lines, Shot s, double rodToInvertM) {
    double least =
        lines.stream().mapToDouble(l -> l.beside(s.x(), s.y()).distanceM()).min().orElseThrow();
    PlannedLine best = null;
    double bestApart = Double.POSITIVE_INFINITY;
    for (PlannedLine line : lines) {
      PlannedLine.Beside beside = line.beside(s.x(), s.y());
      double off = Math.abs(s.z() - rodToInvertM - line.at(beside.stationM()).invertM());
      double apart = beside.distanceM() + off;
      if (beside.distanceM() <= least + MEET_M && (best == null || apart < bestApart - 1e-6)) {
        best = line;
        bestApart = apart;
      }
    }
    return best;
  }

  private static Shot moved(Shot s, double x, double y) {
    return new Shot(s.id(), x, y, s.z(), s.code());
  }

  private static Shot scaled(Shot s, double factor) {
    return moved(s, s.x() * factor, s.y() * factor);
  }

  /** The names of some shots, the first few of many. */
  static String ids(List<Shot> some) {
    List<String> names = new ArrayList<>(some.stream().limit(5).map(Shot::id).toList());
    String listed = names.stream().collect(Collectors.joining(", "));
    return some.size() > names.size()
        ? listed + " and " + (some.size() - names.size()) + " more"
        : listed;
  }

  private static BadInputException bad(String what, String mend) {
    return new BadInputException(SOURCE, what, mend);
  }
}
