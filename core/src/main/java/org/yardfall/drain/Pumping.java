package org.yardfall.drain;

import java.util.List;
import java.util.Optional;
import org.yardfall.route.Station;
import org.yardfall.runoff.Storm;
import org.yardfall.site.Outlet;
import org.yardfall.site.OutletRules;
import org.yardfall.site.Site;

/**
 * What a pump at the end of a drain must take and how high it must lift it, and what its sump holds
 * while there is no power.
 *
 * @param peakM3S peak flow that the drain brings in m³/s
 * @param meanM3H what it brings in an hour of the design storm on the mean, in m³
 * @param outageH time without power in hours
 * @param floatM highest elevation in metres for the float that starts the pump: the invert of the
 *     drain's end, above which water would stand in the pipe
 * @param discharge what the water is lifted to
 */
record Pumping(double peakM3S, double meanM3H, double outageH, double floatM, Discharge discharge) {

  private static final double HOUR_S = 3600;

  /**
   * What the water is lifted to.
   *
   * @param words what it is
   * @param levelM its elevation in metres
   */
  record Discharge(String words, double levelM) {

    /**
     * The outlet's lid where one is given, with the head that passing it takes; else the ground at
     * the drain's end, or the water outside where that stands higher.
     */
    static Discharge of(Outlet outlet, Station end, OutletRules rules) {
      if (outlet.lidM().isPresent()) {
        return new Discharge(
            "the water over the outlet's lid", outlet.lidM().getAsDouble() + rules.lidLossM());
      }
      double outside = outlet.waterLevelM().orElse(Double.NEGATIVE_INFINITY);
      return outside > end.groundM()
          ? new Discharge("the water outside", outside)
          : new Discharge("the ground there", end.groundM());
    }
  }

  /** The pumping at the end of a drain; empty where it runs out by gravity. */
  static Optional<Pumping> atEnd(
      LineDesign main, Outlet outlet, Site site, Storm storm, DrainCatchment catchment) {
    if (!site.outletRules().pumped()) {
      return Optional.empty();
    }
    StretchDesign last = main.stretches().get(main.stretches().size() - 1);
    List<Station> stations = main.line().stations();
    return Optional.of(
        of(
            site.outletRules(),
            storm,
            last.passesM3S(),
            catchment.volumeM3(),
            last.groundwaterM3S(),
            stations.get(stations.size() - 1),
            outlet));
  }

  /**
   * The pumping of a drain.
   *
   * @param volumeM3 runoff that the drain's ground brings in the design storm, in m³
   * @param groundwaterM3S groundwater that it draws in m³/s
   * @param end the drain's lower end
   */
  static Pumping of(
      OutletRules rules,
      Storm storm,
      double peakM3S,
      double volumeM3,
      double groundwaterM3S,
      Station end,
      Outlet outlet) {
    return new Pumping(
        peakM3S,
        (volumeM3 / storm.durationS() + groundwaterM3S) * HOUR_S,
        rules.outageS() / HOUR_S,
        end.invertM(),
        Discharge.of(outlet, end, rules));
  }

  /** What the sump holds without power in m³. */
  double storedM3() {
    return meanM3H * outageH;
  }

  /** Static lift in metres; 0 where the drain's end lies no lower than what it lifts to. */
  double liftM() {
    return Math.max(0, discharge.levelM() - floatM);
  }
}
