package org.yardfall.site;

import org.locationtech.jts.geom.LineString;

/**
 * A line of a drain that the user drew: all of it, or one of several of the same id.
 *
 * @param id id of its drain; text from outside
 * @param line the line from its upper end to its outlet, or to the line that it joins, in metres of
 *     the working plane
 * @param outletId the outlet that it leads to; empty: the nearest to its lower end
 * @param seepId the wet patch whose water it is to intercept; empty: none
 * @param part its name among the lines of its drain; empty: none
 * @param joins the part of its drain that it joins; empty: what it ends on
 */
public record PinnedLine(
    String id, LineString line, String outletId, String seepId, String part, String joins) {

  /** A line that is told by where it ends what it leads to. */
  public PinnedLine(String id, LineString line, String outletId, String seepId) {
    this(id, line, outletId, seepId, "", "");
  }
}
