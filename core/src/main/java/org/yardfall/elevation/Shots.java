package org.yardfall.elevation;

import java.util.List;
import java.util.Optional;
import org.locationtech.jts.geom.LineString;
import org.yardfall.site.Assumption;

/**
 * Survey shots as read from a file, in its order.
 *
 * @param source the file's name
 * @param shots the shots with a place and an elevation
 * @param breaklines breaklines that the file holds as lines, in metres with elevations
 * @param tin the surface that the file holds ready-made, where it does
 * @param description what the file holds and how it was read, in lines for a person
 * @param accuracy how good a single one usually is
 * @param assumptions what was assumed while reading
 * @param warnings what was odd, with point numbers
 */
public record Shots(
    String source,
    List<Shot> shots,
    List<LineString> breaklines,
    Optional<Tin> tin,
    List<String> description,
    UsualAccuracy accuracy,
    List<Assumption> assumptions,
    List<String> warnings) {

  /** Keeps the lists to itself. */
  public Shots {
    shots = List.copyOf(shots);
    breaklines = List.copyOf(breaklines);
    description = List.copyOf(description);
    assumptions = List.copyOf(assumptions);
    warnings = List.copyOf(warnings);
  }
}
