package org.yardfall.site;

import java.util.Map;
import java.util.OptionalDouble;
import java.util.TreeMap;

/**
 * How survey shots are to be read and made into ground, as the user gave it.
 *
 * @param unitM metres per unit of the shots' coordinates, and of their elevations where no vertical
 *     unit is stated
 * @param roles what the user's own field codes stand for, by code
 * @param surface the surface to take from a file that holds several, or null
 * @param cellM cell size of the ground made from shots in metres
 * @param longestEdgeM longest edge at the surface's rim in metres
 * @param correct whether a raster is moved and bent to the shots
 */
public record ShotInput(
    OptionalDouble unitM,
    Map<String, ShotRole> roles,
    String surface,
    OptionalDouble cellM,
    OptionalDouble longestEdgeM,
    boolean correct) {

  /** Nothing stated. */
  public static final ShotInput NONE =
      new ShotInput(
          OptionalDouble.empty(),
          Map.of(),
          null,
          OptionalDouble.empty(),
          OptionalDouble.empty(),
          false);

  /** Whether a field code stands for an outlet, so that shots may show more of them. */
  boolean mayShowOutlets() {
    return roles.values().stream().anyMatch(role -> role.outlet().isPresent());
  }

  /** Keeps the codes to itself, sorted. */
  public ShotInput {
    roles = java.util.Collections.unmodifiableMap(new TreeMap<>(roles));
  }

  /** The same with or without a raster moved and bent to the shots. */
  ShotInput correcting(boolean asked) {
    return new ShotInput(unitM, roles, surface, cellM, longestEdgeM, asked);
  }
}
