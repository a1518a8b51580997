package org.yardfall.runoff;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.yardfall.site.Assumption;

/** What must be said beside a ledger of what crosses the property line. */
final class LedgerNotes {

  private LedgerNotes() {}

  /** What was assumed in a ledger of a storm. */
  static List<Assumption> assumptions(
      Storm storm, SurfaceCover cover, TimeOfConcentration.Settings settings) {
    List<Assumption> all = new ArrayList<>(storm.assumptions());
    all.addAll(cover.assumptions());
    all.add(
        new Assumption(
            "shares of the neighbours",
            "by ways from cell to cell, true to a cell and a half; water that gets no further over"
                + " the line than two cells is on the side on which more of its way lies, so that"
                + " along a side that follows the slope a thread one or two cells wide may be"
                + " counted to the wrong neighbour",
            "geometry of the square grid"));
    all.add(
        new Assumption(
            "runoff coefficients", "by cover, soil group and slope", RationalMethod.SOURCE));
    if (storm.twoYear24hM().isEmpty()) {
      all.add(
          new Assumption(
              "two-year 24 h rain",
              String.format(
                  Locale.ROOT, "%.1f mm, the design storm's own depth", 1000 * storm.depthM()),
              "not given; a deeper rain shortens sheet flow's time and raises the peak"));
    }
    all.add(
        new Assumption(
            "time of concentration",
            String.format(
                Locale.ROOT,
                "sheet flow of at most %.2f m, then shallow flow; at least %.0f s; lengths down the"
                    + " slope's own bearing, not along the zigzag of cells",
                settings.sheetLimitM(),
                settings.leastS()),
            "sheet flow: USDA NRCS, NEH 630 chapter 15 (2010; from memory); least time: FHWA HEC-22 (2009),"
                + " example 7-3"));
    return all;
  }

  /** What is odd in what crosses the line. */
  static List<String> warnings(Storm storm, List<BoundaryFlow> in, List<BoundaryFlow> out) {
    List<String> warnings = new ArrayList<>();
    List<BoundaryFlow> all = new ArrayList<>(in);
    all.addAll(out);
    for (BoundaryFlow f : all) {
      if (!storm.bursts().covers(f.time().seconds())) {
        warnings.add(
            "The intensity table does not reach the time of concentration of some stretches; its"
                + " nearest two lines were continued.");
        break;
      }
    }
    return warnings;
  }
}
