package org.yardfall.elevation;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.yardfall.site.Assumption;

/**
 * Keeps of a file with very many points one of each square, the nearest to its middle, so that what
 * is kept lies evenly and is a measured point. Squares are four times finer where the lot lies than
 * elsewhere. A file with fewer points is kept whole. O(1) for a point.
 */
final class PointThinner {

  /** About so many are kept: a surface of them takes a second or two. */
  static final int MOST_POINTS = 400_000;

  private static final int FINER = 4;

  private record Square(boolean near, long col, long row) {}

  private record Kept(long number, double x, double y, double z, double fromMiddle) {}

  private final ExpectedPlace place;
  private final double farM;
  private final double nearM;
  private final List<Kept> all = new ArrayList<>();
  private final Map<Square, Kept> best = new LinkedHashMap<>();
  private long seen;

  /**
   * A thinner for a file.
   *
   * @param points number of points in it, of all classes
   * @param areaM2 area over which they lie
   * @param place where the lot lies, if that is known
   */
  PointThinner(long points, double areaM2, ExpectedPlace place) {
    this.place = place;
    farM = points <= MOST_POINTS ? 0 : Math.sqrt(Math.max(areaM2, 1) / MOST_POINTS);
    nearM = place.known() ? farM / FINER : farM;
  }

  /** Takes a point; numbers count the file's points from 1. */
  void add(long number, double x, double y, double z) {
    seen++;
    if (farM == 0) {
      all.add(new Kept(number, x, y, z, 0));
      return;
    }
    boolean near = place.known() && place.contains(x, y);
    double sideM = near ? nearM : farM;
    double col = Math.floor(x / sideM);
    double row = Math.floor(y / sideM);
    double off = Math.hypot(x - (col + 0.5) * sideM, y - (row + 0.5) * sideM);
    best.merge(
        new Square(near, (long) col, (long) row),
        new Kept(number, x, y, z, off),
        (old, one) -> one.fromMiddle < old.fromMiddle ? one : old);
  }

  /** Number of points taken. */
  long seen() {
    return seen;
  }

  /** The points kept, as shots. */
  List<Shot> kept() {
    Collection<Kept> kept = farM == 0 ? all : best.values();
    return kept.stream().map(k -> new Shot("point " + k.number, k.x, k.y, k.z, "")).toList();
  }

  /** What was left out, where anything was. */
  Optional<Assumption> assumption(String name) {
    return farM == 0
        ? Optional.empty()
        : Optional.of(
            new Assumption(
                "thinning of " + name,
                String.format(
                    Locale.ROOT,
                    "%d of %d ground points kept: one of each square of %.2f m%s, the nearest to"
                        + " its middle",
                    best.size(),
                    seen,
                    farM,
                    place.known()
                        ? String.format(Locale.ROOT, ", of %.2f m round %s", nearM, place.name())
                        : ""),
                "more than " + MOST_POINTS + " points tell a yard no more"));
  }
}
