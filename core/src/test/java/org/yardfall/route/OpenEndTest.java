package org.yardfall.route;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.yardfall.drain.Caution;
import org.yardfall.drain.DrainDesigner;
import org.yardfall.runoff.Storm;
import org.yardfall.site.Outlet;

/**
 * The last metres before a ditch: no cover is asked there, but the pipe stays in the ground until
 * the bank falls away under it, and what then lies bare is told ({@code common practice, no
 * source}: a rigid end held in the bank, a splash pad below it).
 */
class OpenEndTest {

  private static final double OUTSIDE_M = 0.117;

  /** Level ground at 10 m, then a bank that falls to the ditch's bed within the last metres. */
  private static Yard yard(double bankM, double bedM, double outletM) {
    return Yard.of(
            30,
            40,
            0.5,
            (x, y) -> 10 - (10 - bedM) * Math.max(0, Math.min(1, (6 + bankM - y) / bankM)))
        .lot("POLYGON((3 9, 27 9, 27 37, 3 37, 3 9))")
        .inflow("north", 300, "LINESTRING(3 37, 27 37)")
        .outlet("D1", Outlet.Kind.DITCH, 15, 6, outletM);
  }

  @Test
  void thePipeStaysInTheGroundAsFarAsTheOutletLetsIt() {
    for (double bank = 0.5; bank <= 2.5; bank += 0.5) {
      for (double bed = 8.6; bed <= 9.8; bed += 0.4) {
        Yard yard = yard(bank, bed, 9.1);
        for (Route route : plan(yard).routes()) {
          assertTrue(route.audit().passed());
          double length = route.main().lengthM();
          for (Station s : route.main().stations()) {
            double left = length - s.stationM();
            double least = 9.1 + 0.01 * left + OUTSIDE_M;
            double top = s.invertM() + OUTSIDE_M;
            assertTrue(
                top <= Math.max(s.groundM(), least) + 0.001,
                bank + ", " + bed + ": " + top + " at " + left + " over " + s.groundM());
          }
        }
      }
    }
  }

  /** Nothing forces a pipe out of ground that lies above the outlet: it ends under the bed. */
  @Test
  void onABankAboveTheOutletThePipeEndsInTheGround() {
    Yard yard = yard(2, 9.6, 9.1);
    Route route = plan(yard).routes().get(0);
    List<Station> stations = route.main().stations();
    Station end = stations.get(stations.size() - 1);
    assertTrue(end.invertM() + OUTSIDE_M <= end.groundM() + 0.001, end.toString());
    assertTrue(cautions(yard, route).stream().noneMatch(c -> c.code().equals("outlet-bare")));
  }

  /** Over a bed 0.5 m below the outlet the end is bare by that and the pipe, and that is told. */
  @Test
  void aPipeThatComesOutOfTheBankIsTold() {
    Yard yard = yard(1, 8.6, 9.1);
    Route route = plan(yard).routes().get(0);
    List<Station> stations = route.main().stations();
    Station end = stations.get(stations.size() - 1);
    assertEquals(9.1, end.invertM(), 0.001);
    Caution bare =
        cautions(yard, route).stream()
            .filter(c -> c.code().equals("outlet-bare"))
            .findFirst()
            .orElseThrow();
    assertEquals(9.1 + OUTSIDE_M - end.groundM(), bare.valueM(), 0.001);
    assertTrue(bare.valueM() > 0.3, bare.toString());
    assertTrue(route.main().lengthM() - bare.stationM() <= 3.5, bare.toString());
    assertTrue(bare.words().contains("rigid pipe") && bare.words().contains("splash pad"));
  }

  /** The audit tells a pipe that is out of the ground for nothing. */
  @Test
  void theAuditTellsAPipeHighOverTheBed() {
    Yard yard = yard(1, 9.4, 9.1);
    Route route = plan(yard).routes().get(0);
    List<Station> raised = new java.util.ArrayList<>(route.main().stations());
    Station end = raised.remove(raised.size() - 1);
    raised.add(
        new Station(
            end.stationM(),
            end.x(),
            end.y(),
            end.groundM(),
            end.groundM() + 0.05 - OUTSIDE_M,
            -0.05,
            OUTSIDE_M - 0.05,
            end.grade(),
            end.span()));
    Audit audit =
        RouteAuditor.audit(
            yard.site(),
            yard.ground,
            RouteSettings.defaults(yard.limits),
            yard.outlets.get(0),
            new DrainLine(route.main().vertices(), raised),
            route.branches());
    assertTrue(
        audit.checks().stream().anyMatch(c -> !c.passed() && c.name().equals("out-of-ground")),
        audit.toString());
  }

  private static List<Caution> cautions(Yard yard, Route route) {
    return DrainDesigner.design(
            route, yard.site(), yard.terrain(), yard.water(), Storm.of(yard.site().storm()))
        .cautions();
  }

  private static RoutePlan plan(Yard yard) {
    return RouteFinder.plan(yard.site(), yard.terrain(), yard.water(), yard.flows);
  }
}
