package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.LineString;
import org.yardfall.site.DrainLimits;

/** What the builder should know of a line as laid, in words. */
final class LineNotes {

  private static final double EPSILON_M = 1e-6;

  /** Less of a drop at a junction is taken up in the fitting and not said, in metres. */
  private static final double SAID_DROP_M = 0.02;

  private LineNotes() {}

  /** Where a pipe drops, and what another grade line would change, where one was asked for. */
  static List<String> of(
      GroundLine line, Bounds b, double endInvertM, DrainLine laid, DrainLimits.GradeLine asked) {
    List<String> notes = new ArrayList<>();
    if (asked == DrainLimits.GradeLine.LEAST_DIGGING) {
      GradeLine.fewestBreaks(line, b, endInvertM)
          .filter(fewest -> GradeLine.breaks(fewest) < GradeLine.breaks(laid))
          .ifPresent(fewest -> notes.add(shallower(laid, fewest)));
    }
    notes.addAll(drops(laid));
    return notes;
  }

  private static String shallower(DrainLine laid, DrainLine fewest) {
    return text(
        "the main line is laid for the least digging: with %d changes of grade it lies on average"
            + " %.3f m shallower than with %d, the fewest",
        GradeLine.breaks(laid), meanDepthM(fewest) - meanDepthM(laid), GradeLine.breaks(fewest));
  }

  private static double meanDepthM(DrainLine line) {
    double sum = 0;
    double dug = 0;
    for (int i = 1; i < line.stations().size(); i++) {
      Station a = line.stations().get(i - 1);
      Station b = line.stations().get(i);
      if (a.span() != Station.Span.BORED) {
        double run = b.stationM() - a.stationM();
        sum += run * (a.depthM() + b.depthM()) / 2;
        dug += run;
      }
    }
    return dug == 0 ? 0 : sum / dug;
  }

  /** Where a pipe drops, since the ground falls faster than it may. */
  static List<String> drops(DrainLine line) {
    List<String> notes = new ArrayList<>();
    for (int i = 1; i < line.stations().size(); i++) {
      Station a = line.stations().get(i - 1);
      Station b = line.stations().get(i);
      if (b.stationM() - a.stationM() < EPSILON_M && a.invertM() > b.invertM() + EPSILON_M) {
        notes.add(
            text(
                "drop of %.2f m at station %.1f m, since the ground falls faster than the greatest"
                    + " grade",
                a.invertM() - b.invertM(), a.stationM()));
      }
    }
    return notes;
  }

  /** Branches that arrive above the line that they join. */
  static List<String> junctionDrops(DrainLine main, List<Route.Branch> branches) {
    List<String> notes = new ArrayList<>();
    for (int i = 0; i < branches.size(); i++) {
      Route.Branch branch = branches.get(i);
      DrainLine onto = branch.joins() == 0 ? main : branches.get(branch.joins() - 1).line();
      List<Station> stations = branch.line().stations();
      double by =
          stations.get(stations.size() - 1).invertM()
              - DrainRouter.invertAt(onto, branch.junctionM());
      if (by >= SAID_DROP_M) {
        String where = branch.joins() == 0 ? "" : text("branch %d ", branch.joins());
        notes.add(
            text(
                "branch %d joins at %sstation %.1f m with a drop of %.2f m",
                i + 1, where, branch.junctionM(), by));
      }
    }
    return notes;
  }

  /** What of a collector's lines a drain does not take, and why. */
  static List<String> leftOut(Collector collector, Draft draft) {
    List<String> notes = new ArrayList<>();
    for (LineString left : draft.unserved()) {
      Coordinate middle = left.getCentroid().getCoordinate();
      String why =
          left.getLength() < Stubs.LEAST_M
              ? "are too short for a branch of their own"
              : "cannot be joined by gravity";
      notes.add(
          text(
              "%.1f of %.1f m of the collecting line, around %.1f, %.1f, %s and are left out",
              left.getLength(), collector.lengthM(), middle.x, middle.y, why));
    }
    return notes;
  }

  private static String text(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }
}
