package org.yardfall.route;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.yardfall.site.DrainLimits.GradeLine;
import org.yardfall.site.Given;
import org.yardfall.site.Site;

/** The same drain laid in the fewest grades and with the least digging, as the site asks. */
class GradeLineChoiceTest {

  /** Ground that falls 2 % southward in waves of 8 m. */
  private static Yard waves(GradeLine kind) {
    Yard yard =
        Yard.lot((x, y) -> 10 + 0.02 * y + 0.04 * Math.sin(2 * Math.PI * y / 8))
            .fromNorth(300)
            .basin(20, 2, 9);
    yard.limits = Given.laid(yard.limits, kind);
    return yard;
  }

  private static Route first(Yard yard) {
    Route route = yard.plan().routes().get(0);
    assertTrue(route.audit().passed());
    return route;
  }

  /** Area in m² between the ground and the main line's inverts, by trapezoids. */
  private static double dugM2(Route route) {
    double sum = 0;
    for (int i = 1; i < route.main().stations().size(); i++) {
      Station a = route.main().stations().get(i - 1);
      Station b = route.main().stations().get(i);
      sum += (b.stationM() - a.stationM()) * (a.depthM() + b.depthM()) / 2;
    }
    return sum;
  }

  @Test
  void thePlanLaysTheLineAskedFor() {
    Route fewest = first(waves(GradeLine.FEWEST_GRADES));
    Route least = first(waves(GradeLine.LEAST_DIGGING));
    assertEquals(fewest.kind(), least.kind());
    assertTrue(least.gradeBreaks() > fewest.gradeBreaks());
    assertTrue(dugM2(least) < dugM2(fewest));
    assertTrue(
        least.reasons().stream().anyMatch(r -> r.contains("laid for the least digging")),
        least.reasons().toString());
    assertFalse(fewest.reasons().stream().anyMatch(r -> r.contains("least digging")));
  }

  /** Stakes stand 2 m apart: a crew checks the pipe there, and nowhere does it bend between. */
  @Test
  void theLineOfLeastDiggingBendsAtStakesOnly() {
    Route least = first(waves(GradeLine.LEAST_DIGGING));
    double last = 0;
    for (int i = 1; i + 1 < least.main().stations().size(); i++) {
      Station a = least.main().stations().get(i - 1);
      Station b = least.main().stations().get(i);
      if (Math.abs(a.grade() - b.grade()) > 1e-6) {
        boolean bend =
            least.main().vertices().stream()
                .anyMatch(v -> Math.hypot(v.x - b.x(), v.y - b.y()) < 0.01);
        assertTrue(bend || b.stationM() - last > 1.5, "at " + b.stationM());
        last = b.stationM();
      }
    }
  }

  @Test
  void aDrawnLineIsLaidAsAskedToo() {
    Route fewest = pinned(waves(GradeLine.FEWEST_GRADES));
    Route least = pinned(waves(GradeLine.LEAST_DIGGING));
    assertEquals(fewest.main().vertices(), least.main().vertices());
    assertTrue(least.gradeBreaks() > fewest.gradeBreaks());
    assertTrue(dugM2(least) < dugM2(fewest));
    assertTrue(
        least.reasons().stream().anyMatch(r -> r.contains("shallower than with")),
        least.reasons().toString());
  }

  private static Route pinned(Yard yard) {
    Site drawn = yard.drawn("LINESTRING(20 44, 20 2)", "CB1");
    return RouteFinder.pinned(drawn, yard.terrain(), yard.water()).routes().get(0);
  }

  /** On steep ground drops keep the pipe under the greatest grade; more of them save nothing. */
  @Test
  void whereOnlyDropsHelpBothLinesAreTheSame() {
    Yard yard = Yard.lot((x, y) -> 10 + 0.3 * y).basin(20, 2, 9.6);
    yard.limits = Given.laid(yard.limits, GradeLine.LEAST_DIGGING);
    Route steep = pinned(yard);
    assertTrue(steep.audit().passed());
    assertTrue(steep.reasons().stream().anyMatch(r -> r.contains("drop of")));
  }
}
