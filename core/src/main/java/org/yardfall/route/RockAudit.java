package org.yardfall.route;

import java.util.List;
import org.locationtech.jts.algorithm.locate.IndexedPointInAreaLocator;
import org.locationtech.jts.geom.Location;
import org.yardfall.site.DrainLimits;
import org.yardfall.site.Obstacle;
import org.yardfall.site.Site;

/**
 * Whether a trench ends above the rock that it passes over. It shares no code with the search: from
 * the ground, the invert, the pipe's wall and the bed under it the trench's bottom is reckoned
 * anew.
 */
final class RockAudit {

  private RockAudit() {}

  /**
   * Adds the check, where there is rock.
   *
   * @param fromEndM last metres of the line in which no depth is asked
   */
  static void check(
      AuditedLine line,
      Site site,
      double fromEndM,
      double planSlackM,
      double levelSlackM,
      List<Audit.Check> checks) {
    DrainLimits limits = site.drain();
    double wallM = (limits.pipeOutsideM() - limits.pipeInsideM()) / 2;
    Tally above = Tally.atLeast("above-rock", 0, "m", levelSlackM);
    boolean any = false;
    for (Obstacle rock : site.obstacles()) {
      if (rock.kind() != Obstacle.Kind.ROCK || rock.passage() == Obstacle.Passage.NONE) {
        continue;
      }
      any = true;
      IndexedPointInAreaLocator over =
          new IndexedPointInAreaLocator(rock.shape().buffer(-planSlackM));
      for (AuditedLine.Place p : line.places) {
        boolean asked = p.span() != Station.Span.BORED && line.lengthM - p.stationM() > fromEndM;
        if (asked && over.locate(p.at()) == Location.INTERIOR) {
          double bottomM = p.invertM() - wallM - DrainLimits.BED_M;
          above.see(bottomM - (p.groundM() - rock.rockDepthM().orElseThrow()), p.stationM());
        }
      }
    }
    if (any) {
      checks.add(above.check());
    }
  }
}
