package org.yardfall.site;

import java.util.OptionalDouble;
import org.locationtech.jts.geom.LineString;

/**
 * A culvert or curb cut, drawn by the user, that lets surface water through a bank the elevation
 * shows as closed. The line runs from its upstream to its downstream end.
 *
 * @param id its id; text from outside
 * @param kind culvert or curb cut
 * @param line the line in metres of the working plane
 * @param invertUpM elevation of the upstream end in metres; empty: the ground there
 * @param invertDownM elevation of the downstream end in metres; empty: the ground there
 */
public record FlowOpening(
    String id, Kind kind, LineString line, OptionalDouble invertUpM, OptionalDouble invertDownM) {

  /** What lets the water through. */
  public enum Kind {
    CULVERT,
    CURB_CUT
  }
}
