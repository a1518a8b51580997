package org.yardfall.site;

import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.locationtech.jts.geom.Coordinate;

/**
 * A place where the drain may let its water go.
 *
 * @param id its id; text from outside
 * @param kind what it is
 * @param at its place in metres of the working plane
 * @param invertM lowest elevation in metres at which a pipe may enter it; empty: the ground there
 * @param waterLevelM elevation in metres of the water in it during the design storm, where known
 * @param lidM elevation in metres of a lid or grate that the water must rise to, where there is one
 * @param permitNote what permission it needs, in the user's words; may be empty
 * @param usualLevelM elevation in metres of the water that usually stands in it, where known
 */
public record Outlet(
    String id,
    Kind kind,
    Coordinate at,
    OptionalDouble invertM,
    OptionalDouble waterLevelM,
    OptionalDouble lidM,
    String permitNote,
    OptionalDouble usualLevelM) {

  /** An outlet whose usual water is not known. */
  public Outlet(
      String id,
      Kind kind,
      Coordinate at,
      OptionalDouble invertM,
      OptionalDouble waterLevelM,
      OptionalDouble lidM,
      String permitNote) {
    this(id, kind, at, invertM, waterLevelM, lidM, permitNote, OptionalDouble.empty());
  }

  /**
   * Why a pipe that ends here cannot run empty, in words; nothing where it can.
   *
   * @param endInvertM invert of the pipe's end in metres
   */
  public Optional<String> keepsWaterIn(double endInvertM) {
    if (kind == Kind.DRY_WELL) {
      return Optional.of("it soaks away");
    }
    if (lidM.orElse(endInvertM) > endInvertM) {
      return Optional.of("water must rise to the lid and stays in the pipe below it");
    }
    return Math.max(usualLevelM.orElse(endInvertM), waterLevelM.orElse(endInvertM)) > endInvertM
        ? Optional.of("water stands in it from outside")
        : Optional.empty();
  }

  /** What an outlet is. */
  public enum Kind {
    CATCH_BASIN,
    DITCH,
    WATERWAY,
    STREET,
    DAYLIGHT,
    DRY_WELL;

    /** The word used in files: lower case with hyphens. */
    public String word() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
  }
}
