package org.yardfall.fieldwork;

import java.util.List;
import org.yardfall.route.Station;
import org.yardfall.site.DrainLimits;

/**
 * How far the ground along a planned line may differ from what is known before no line falls along
 * it within the limits. Upstream from the end the lowest usable invert rises at the least grade and
 * is lifted by the greatest depth; downstream from the top the highest usable invert falls at the
 * least grade and is pressed down by the least cover. What lies between them is leeway. One pass
 * each way, O(stations).
 *
 * <p>Cover is not asked where the plan itself has less (at an open outlet, at a basin's wall); the
 * depth of an open trench is not asked in a bore.
 */
final class Leeway {

  private final List<Station> stations;
  private final DrainLimits limits;
  private final double endM;

  /** Lowest invert from which what lies downstream can be met. */
  private final double[] fromBelowM;

  /** Highest invert that what lies upstream leaves. */
  private final double[] fromAboveM;

  /**
   * The leeway of a line.
   *
   * @param endM lowest invert in metres at which the line may end
   */
  Leeway(PlannedLine line, DrainLimits limits, double endM) {
    this.stations = line.stations();
    this.limits = limits;
    this.endM = endM;
    int n = stations.size();
    fromBelowM = new double[n];
    fromAboveM = new double[n];
    fromBelowM[n - 1] = endM;
    for (int i = n - 2; i >= 0; i--) {
      fromBelowM[i] = lowestM(i + 1) + limits.minGrade() * runM(i);
    }
    fromAboveM[0] = Double.POSITIVE_INFINITY;
    for (int i = 1; i < n; i++) {
      double before = fromAboveM[i - 1];
      fromAboveM[i] =
          (asksCover(i - 1) ? Math.min(before, shallowestM(i - 1)) : before)
              - limits.minGrade() * runM(i - 1);
    }
  }

  /** How much lower the ground at a station may be, in metres; infinite where nothing depends. */
  double lowerM(int i) {
    return asksCover(i) ? Math.max(0, shallowestM(i) - fromBelowM[i]) : Double.POSITIVE_INFINITY;
  }

  /** How much higher the ground at a station may be, in metres; infinite where nothing depends. */
  double higherM(int i) {
    return asksDepth(i) ? Math.max(0, fromAboveM[i] - deepestM(i)) : Double.POSITIVE_INFINITY;
  }

  /** How much higher the end of the line may lie, in metres. */
  double endHigherM() {
    double lengthM = stations.get(stations.size() - 1).stationM();
    double least = Double.POSITIVE_INFINITY;
    for (int i = 0; i < stations.size(); i++) {
      if (asksCover(i)) {
        double lowest = endM + limits.minGrade() * (lengthM - stations.get(i).stationM());
        least = Math.min(least, shallowestM(i) - lowest);
      }
    }
    return Math.max(0, least);
  }

  /** Lowest usable invert at a station along the line, in metres. */
  double lowestM(double stationM) {
    int i = 0;
    while (i + 1 < stations.size() && stations.get(i + 1).stationM() <= stationM + 1e-6) {
      i++;
    }
    return lowestM(i);
  }

  private double lowestM(int i) {
    return asksDepth(i) ? Math.max(fromBelowM[i], deepestM(i)) : fromBelowM[i];
  }

  private double shallowestM(int i) {
    return limits.highestInvertM(stations.get(i).groundM());
  }

  private double deepestM(int i) {
    return limits.lowestInvertM(stations.get(i).groundM());
  }

  private boolean asksCover(int i) {
    return stations.get(i).invertM() <= shallowestM(i) + 0.002;
  }

  private boolean asksDepth(int i) {
    return stations.get(i).span() != Station.Span.BORED;
  }

  private double runM(int i) {
    return stations.get(i + 1).stationM() - stations.get(i).stationM();
  }
}
