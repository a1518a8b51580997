package org.yardfall.route;

import java.util.List;
import org.locationtech.jts.geom.LineString;

/**
 * A drain laid from its collecting lines to an outlet, not yet audited or ranked.
 *
 * @param outletId the outlet it reaches
 * @param main the line that ends at the outlet
 * @param branches lines that join it, by junction
 * @param cost its cost as the search measures it, with the inverts as laid
 * @param unserved collecting lines, or parts of them, that could not be joined
 * @param notes what its builder should know: drops, rounding, smaller pipes, in words
 */
public record Draft(
    String outletId,
    DrainLine main,
    List<Route.Branch> branches,
    double cost,
    List<LineString> unserved,
    List<String> notes) {

  /** Keeps the lists to itself. */
  public Draft {
    branches = List.copyOf(branches);
    unserved = List.copyOf(unserved);
    notes = List.copyOf(notes);
  }

  /** Length in metres of the collecting lines that could not be joined. */
  double unservedM() {
    return unserved.stream().mapToDouble(LineString::getLength).sum();
  }
}
