package org.yardfall.fieldwork;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.yardfall.elevation.Shot;
import org.yardfall.route.Route;
import org.yardfall.route.Station;
import org.yardfall.site.BadInputException;

/**
 * Rod readings at the stakes of a route as shots: a crew with a level and no coordinates names each
 * point by its station, {@code 12.5}, {@code 0+12.5} or {@code branch 1 3.0}, and the plan knows
 * where that is. Other points, such as benchmarks and turning points, are no shots.
 *
 * @param shots the shots, in the notes' order
 * @param others names of the points that are no stakes
 */
public record StakedShots(List<Shot> shots, List<String> others) {

  private static final Pattern STAKE =
      Pattern.compile(
          "(?:(main|branch \\d+)\\s+)?(?:sta(?:tion)?\\.?\\s*)?(\\d+\\+)?(\\d+(?:\\.\\d+)?)");

  private static final double BEYOND_M = 0.05;

  /** Keeps the lists to itself. */
  public StakedShots {
    shots = List.copyOf(shots);
    others = List.copyOf(others);
  }

  /**
   * The shots among level notes.
   *
   * @param units the unit of the stations; in {@code 1+05} the first figure counts hundreds of feet
   *     or thousands of metres
   * @throws BadInputException if a stake lies beyond the end of its line, or the route has no such
   *     line
   */
  public static StakedShots of(LevelNotes notes, Route route, FieldUnits units) {
    List<PlannedLine> lines = PlannedLine.of(route);
    List<Shot> shots = new ArrayList<>();
    List<String> others = new ArrayList<>();
    for (LevelPoint point : notes.points()) {
      Matcher stake = STAKE.matcher(point.name().strip().toLowerCase(Locale.ROOT));
      if (point.sight() == LevelPoint.Sight.BENCHMARK || !stake.matches()) {
        others.add(point.name());
        continue;
      }
      String name = stake.group(1) == null ? "main" : stake.group(1);
      PlannedLine line =
          lines.stream()
              .filter(each -> each.name().equals(name))
              .findFirst()
              .orElseThrow(() -> bad(notes, point, "the route has no line of that name"));
      double stationM = stationM(stake, units);
      if (stationM > line.lengthM() + BEYOND_M) {
        throw bad(
            notes, point, "it lies beyond the end of its line at " + units.station(line.lengthM()));
      }
      Station at = line.at(Math.min(stationM, line.lengthM()));
      shots.add(new Shot(point.name(), at.x(), at.y(), notes.metres(point.adjusted()), ""));
    }
    return new StakedShots(shots, others);
  }

  private static double stationM(Matcher stake, FieldUnits units) {
    double station = Double.parseDouble(stake.group(3));
    if (stake.group(2) != null) {
      int whole = units.form() == FieldUnits.Form.METRES ? 1000 : 100;
      station += whole * Double.parseDouble(stake.group(2).replace("+", ""));
    }
    return station * units.unitM();
  }

  private static BadInputException bad(LevelNotes notes, LevelPoint point, String what) {
    return new BadInputException(
        notes.source(),
        "stake " + point.name() + ": " + what,
        "name points as in the cut sheet, such as: main 12.5, branch 1 3.0");
  }
}
