package org.yardfall.water;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;

/** Says where the known ground ends before the lot's catchment does, and how much more to give. */
public final class CutOff {

  /** No less than this much more ground, in metres, is worth asking for. */
  private static final double LEAST_MORE_M = 30;

  private CutOff() {}

  /**
   * The warning of a catchment that is cut off; empty where it is whole. How much further the
   * elevation should go is not known; as far again as the known ground already reaches beyond the
   * lot is a fair first step.
   *
   * @param catchment the lot's catchment
   * @param lot the lot's outline
   * @param ground extent of the known ground
   */
  public static Optional<String> warning(Catchment catchment, Geometry lot, Envelope ground) {
    if (catchment.cutOff().isEmpty()) {
      return Optional.empty();
    }
    List<String> sides = new ArrayList<>();
    List<String> more = new ArrayList<>();
    for (Side side : catchment.cutOffSides()) {
      String name = side.name().toLowerCase(Locale.ROOT);
      double moreM = moreM(side, lot.getEnvelopeInternal(), ground);
      sides.add("in the " + name);
      more.add(
          String.format(
              Locale.ROOT,
              more.isEmpty() ? "about %.0f m farther in the %s" : "%.0f m in the %s",
              moreM,
              name));
    }
    if (catchment.cutOff().contains(Catchment.HOLE)) {
      sides.add("at unknown ground within it");
      more.add("where they are missing within");
    }
    return Optional.of(
        "catchment cut off: the known ground ends "
            + joined(sides)
            + " before what drains to the lot does, so that areas, volumes and peaks are at least"
            + " what is given, and the pipe may be too small; give the elevations "
            + joined(more));
  }

  private static double moreM(Side side, Envelope lot, Envelope ground) {
    double reachM =
        switch (side) {
          case NORTH -> ground.getMaxY() - lot.getMaxY();
          case SOUTH -> lot.getMinY() - ground.getMinY();
          case EAST -> ground.getMaxX() - lot.getMaxX();
          case WEST -> lot.getMinX() - ground.getMinX();
        };
    return Math.max(LEAST_MORE_M, Math.ceil(reachM / 10) * 10);
  }

  private static String joined(List<String> words) {
    int last = words.size() - 1;
    return last == 0
        ? words.get(0)
        : String.join(", ", words.subList(0, last)) + " and " + words.get(last);
  }
}
