package org.yardfall.fieldwork;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.yardfall.route.Route;
import org.yardfall.site.BadInputException;

/**
 * The cut sheet of a route: what a crew needs at each stake to dig and lay the drain.
 *
 * @param route the route
 * @param settings how it is staked
 * @param pipes the pipes of its lines, in the lines' order; empty: that of the settings throughout
 * @param lines main line, then branches
 */
public record CutSheet(
    Route route, StakeSettings settings, List<List<LaidPipe>> pipes, List<Line> lines) {

  /** No rod reaches from a line of sight farther than this to a pipe; longest rods have 7.6 m. */
  private static final double FARTHEST_M = 15;

  /** Keeps the lists to itself. */
  public CutSheet {
    pipes = List.copyOf(pipes);
    lines = List.copyOf(lines);
  }

  /**
   * The stakes of a line, downstream.
   *
   * @param name {@code main}, {@code branch 1} …
   * @param rows its stakes
   */
  public record Line(String name, List<CutRow> rows) {

    /** Keeps the list to itself. */
    public Line {
      rows = List.copyOf(rows);
    }
  }

  /** The cut sheet of a route that has the settings' pipe throughout. */
  public static CutSheet of(Route route, StakeSettings settings) {
    return of(route, settings, List.of());
  }

  /**
   * The cut sheet of a route: stakes at least every interval and at every upper end, bend, grade
   * break, drop, change of span or pipe, junction and outlet.
   *
   * @param pipes the pipes of its lines, main line first; empty: that of the settings throughout
   * @throws BadInputException if the settings' instrument stands so far above or below the pipe
   *     that its benchmark is of another datum or unit
   */
  public static CutSheet of(Route route, StakeSettings settings, List<List<LaidPipe>> pipes) {
    List<Line> lines = new ArrayList<>();
    for (PlannedLine line : PlannedLine.of(route)) {
      List<LaidPipe> laid = pipes.isEmpty() ? List.of() : pipes.get(lines.size());
      lines.add(new Line(line.name(), new Staker(route, line, settings, laid).rows()));
    }
    settings.setup().ifPresent(setup -> checkDatum(route, setup));
    return new CutSheet(route, settings, pipes, lines);
  }

  private static void checkDatum(Route route, LaserSetup setup) {
    double invertM = route.main().stations().get(0).invertM();
    double aboveM = setup.hiM() - invertM;
    if (Math.abs(aboveM) > FARTHEST_M) {
      throw new BadInputException(
          "benchmark",
          String.format(
              Locale.ROOT,
              "the line of sight lies at %.2f m, %.2f m %s the pipe's upper end at %.2f m",
              setup.hiM(),
              Math.abs(aboveM),
              aboveM < 0 ? "below" : "above",
              invertM),
          "give the benchmark in the plan's datum and its unit");
    }
  }

  /** The sheet as CSV, every column, a line a stake. */
  public String csv(FieldUnits units) {
    return CutSheetText.csv(this, units);
  }

  /** The sheet as a page to print: HTML, black on white, large, few columns. */
  public String page(FieldUnits units) {
    return CutSheetText.page(this, units);
  }

  /** What the crew must know, in words. */
  public List<String> warnings(FieldUnits units) {
    for (Line line : lines) {
      for (CutRow row : line.rows()) {
        if (row.invertRodM().isPresent() && row.invertRodM().getAsDouble() < 0) {
          return List.of(
              "At station %s of %s the invert lies above the line of sight: set the instrument up"
                      .formatted(units.station(row.stationM()), Prover.spoken(line.name()))
                  + " higher.");
        }
      }
    }
    return List.of();
  }
}
