package org.yardfall.drain;

import java.util.List;
import org.yardfall.pipe.HydraulicGradeLine;
import org.yardfall.route.DrainLine;

/**
 * A line of a drain with its pipes and the water in them.
 *
 * @param name {@code main}, {@code branch 1} …
 * @param line the line as laid
 * @param stretches its stretches, downstream
 * @param hydraulic how high the water stands in it at the peak
 */
public record LineDesign(
    String name, DrainLine line, List<StretchDesign> stretches, HydraulicGradeLine hydraulic) {

  /** Keeps the list to itself. */
  public LineDesign {
    stretches = List.copyOf(stretches);
  }
}
