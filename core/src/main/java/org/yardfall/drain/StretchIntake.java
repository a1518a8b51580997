package org.yardfall.drain;

import java.util.Map;
import org.yardfall.pipe.DrainInflow;
import org.yardfall.pipe.Pipe;
import org.yardfall.route.Station;
import org.yardfall.site.Site;
import org.yardfall.trench.Geotextile;

/**
 * What a metre of a stretch can take in from the ground above it, and what holds it back.
 *
 * @param flowM2S m³/s per metre; 0 where the stretch is not open
 * @param limit what holds it back; null where the stretch is not open
 */
record StretchIntake(double flowM2S, DrainInflow.Limit limit) {

  /** Water over the fabric in metres that drives it into the drain ({@code common practice}). */
  static final double POND_M = 0.05;

  /** The intake of the stretch between two stations. */
  static StretchIntake of(Site site, Pipe pipe, Station up, Station down) {
    if (up.span() != Station.Span.OPEN || !pipe.perforated()) {
      return new StretchIntake(0, null);
    }
    Map<DrainInflow.Limit, Double> flows =
        DrainInflow.byLimitM2S(
            pipe,
            site.drain().trenchWidthM(),
            Math.max(0, (up.coverM() + down.coverM()) / 2),
            POND_M,
            Geotextile.USUAL.permittivityS());
    DrainInflow.Limit least =
        flows.entrySet().stream().min(Map.Entry.comparingByValue()).orElseThrow().getKey();
    return new StretchIntake(flows.get(least), least);
  }
}
