package org.yardfall.route;

import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import org.locationtech.jts.geom.Coordinate;

/**
 * A drain that was looked at and is not proposed, and why.
 *
 * @param id {@code X1}, {@code X2} …
 * @param kind what the drain would have done
 * @param outletId the outlet it was to reach, or empty for any
 * @param vertices the line as far as it was drawn, in metres of the working plane; may be empty
 * @param code the reason's code, lower case with hyphens
 * @param sentence the reason in a sentence with its numbers
 * @param relax for each limit alone, the least change that makes the drain work
 * @param shortfallM what is lacking at least, in metres: the smallest of those changes; where the
 *     outlet alone lies too high, by how much, though the way to it may ask for more
 */
public record Rejection(
    String id,
    DrainKind kind,
    String outletId,
    List<Coordinate> vertices,
    String code,
    String sentence,
    List<Relaxation> relax,
    OptionalDouble shortfallM) {

  /** Keeps the lists to itself. */
  public Rejection {
    vertices = List.copyOf(vertices);
    relax = List.copyOf(relax);
  }

  /**
   * The least change of one limit, alone, that makes a drain work.
   *
   * @param limit {@code outlet}, {@code max-depth}, {@code min-cover} or {@code min-grade}
   * @param by how much lower (outlet, cover), deeper (depth); for the grade the value it must drop
   *     to
   * @param unit {@code m} or {@code m/m}
   */
  public record Relaxation(String limit, double by, String unit) {

    /** The change in words with its number. */
    public String words() {
      return switch (limit) {
        case "outlet" -> String.format(Locale.ROOT, "the outlet %.3f m lower", by);
        case "max-depth" -> String.format(Locale.ROOT, "%.3f m more depth", by);
        case "min-cover" -> String.format(Locale.ROOT, "%.3f m less cover", by);
        default -> String.format(Locale.ROOT, "a least grade of %.3f %%", 100 * by);
      };
    }
  }
}
