package org.yardfall.drain;

import java.util.List;
import java.util.Optional;
import org.yardfall.pipe.Hooghoudt;
import org.yardfall.pipe.Pipe;
import org.yardfall.route.Station;
import org.yardfall.site.Soil;

/**
 * How far apart parallel drains like this one may lie to hold the water table down between them
 * (Hooghoudt).
 *
 * @param drainDepthM mean depth of the drain's open stretches to the invert in metres
 * @param headM height of the water table over the drains midway between them in metres
 * @param baseM depth of the impermeable layer below the drains in metres; 0 where none is known,
 *     which gives the closest drains
 * @param equivalentDepthM equivalent depth in metres
 * @param spacingM greatest spacing in metres
 */
public record ReliefDrains(
    double drainDepthM, double headM, double baseM, double equivalentDepthM, double spacingM) {

  /**
   * The spacing that a soil's {@link Soil.Relief} asks for; empty where none is asked for, or the
   * drain lies no deeper than the water table is to be held.
   *
   * @param pipe the drain's pipe, whose outside counts as the drain: stone round it would let them
   *     lie further apart
   */
  static Optional<ReliefDrains> of(Soil soil, List<LineDesign> lines, Pipe pipe) {
    double depth = meanDepthM(lines);
    if (soil.relief() == null || soil.conductivityMS().isEmpty() || !(depth > 0)) {
      return Optional.empty();
    }
    double head = depth - soil.relief().tableDepthM();
    if (head <= 0) {
      return Optional.empty();
    }
    double conductivity = soil.conductivityMS().getAsDouble();
    double base = Math.max(0, soil.impermeableDepthM().orElse(depth) - depth);
    double radius = pipe.outsideM() / 2;
    double spacing =
        Hooghoudt.spacingM(
            conductivity, conductivity, head, base, radius, soil.relief().dischargeMS());
    return Optional.of(
        new ReliefDrains(
            depth, head, base, Hooghoudt.equivalentDepthM(spacing, base, radius), spacing));
  }

  /** Mean depth in metres to the invert along the open stretches; NaN where there is none. */
  static double meanDepthM(List<LineDesign> lines) {
    double length = 0;
    double sum = 0;
    for (LineDesign line : lines) {
      List<Station> stations = line.line().stations();
      for (int i = 0; i + 1 < stations.size(); i++) {
        Station up = stations.get(i);
        Station down = stations.get(i + 1);
        if (up.span() == Station.Span.OPEN) {
          double run = down.stationM() - up.stationM();
          length += run;
          sum += run * (up.depthM() + down.depthM()) / 2;
        }
      }
    }
    return sum / length;
  }
}
