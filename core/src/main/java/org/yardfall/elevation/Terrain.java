package org.yardfall.elevation;

import java.util.List;
import java.util.Optional;
import org.yardfall.site.Assumption;

/**
 * The ground as read, and what is known about the reading.
 *
 * @param ground elevations on the working plane
 * @param sources the files it was read from, by name, with what each held
 * @param accuracyM vertical accuracy as RMSE in metres, stated or assumed
 * @param support what each cell rests on where the ground is made of shots, on the same cells
 * @param accuracyStated whether that accuracy was stated by the user
 * @param stepM step to which the elevations are rounded in metres, 0 where the data shows none
 * @param verticalDatum name of the vertical datum, or empty
 * @param assumptions what was assumed while reading
 * @param warnings what was odd, in words
 */
public record Terrain(
    ElevationGrid ground,
    List<String> sources,
    double accuracyM,
    Optional<ShotSupport> support,
    boolean accuracyStated,
    double stepM,
    String verticalDatum,
    List<Assumption> assumptions,
    List<String> warnings) {

  /** Ground that is not made of shots. */
  public Terrain(
      ElevationGrid ground,
      List<String> sources,
      double accuracyM,
      boolean accuracyStated,
      double stepM,
      String verticalDatum,
      List<Assumption> assumptions,
      List<String> warnings) {
    this(
        ground,
        sources,
        accuracyM,
        Optional.empty(),
        accuracyStated,
        stepM,
        verticalDatum,
        assumptions,
        warnings);
  }

  /** Keeps the lists to itself. */
  public Terrain {
    sources = List.copyOf(sources);
    assumptions = List.copyOf(assumptions);
    warnings = List.copyOf(warnings);
  }
}
