package org.yardfall.water;

import java.util.EnumSet;
import java.util.Locale;
import java.util.Set;
import org.locationtech.jts.geom.Geometry;

/**
 * The ground that drains to something.
 *
 * @param id {@code C1}, {@code C2} …
 * @param of what it drains to: {@code lot}, or a low spot's id
 * @param outline polygon or multipolygon in metres of the working plane
 * @param areaM2 area in m²
 * @param cutOff compass sides on which the grid ends before the catchment does, in words joined by
 *     commas, and {@code unknown ground within} where it meets unknown ground; or empty
 */
public record Catchment(String id, String of, Geometry outline, double areaM2, String cutOff) {

  static final String HOLE = "unknown ground within";

  /** The sides of the grid at which the catchment is cut off; none where only a hole cuts it. */
  public Set<Side> cutOffSides() {
    Set<Side> sides = EnumSet.noneOf(Side.class);
    for (Side side : Side.values()) {
      if (cutOff.contains(side.name().toLowerCase(Locale.ROOT))) {
        sides.add(side);
      }
    }
    return sides;
  }
}
