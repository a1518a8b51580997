package org.yardfall.route;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.LineString;
import org.yardfall.site.BadInputException;
import org.yardfall.site.PinnedLine;
import org.yardfall.site.PinnedTargets;

/** Drawn lines that end on each other: a tree, graded and audited as drawn. */
class DrawnTreeTest {

  private static final String MAIN = "LINESTRING(20 44, 20 8)";
  private static final String BRANCH = "LINESTRING(32 42, 20 30)";
  private static final String TWIG = "LINESTRING(33 32, 26 36)";

  private static Yard yard(double hollowM) {
    return Yard.lot((x, y) -> 10 + 0.03 * y - (x > 29 && y < 35 ? hollowM : 0)).basin(20, 8, 9.2);
  }

  private static Route only(Yard yard, PinnedLine... lines) {
    RoutePlan plan =
        RouteFinder.pinned(yard.site().withPinned(List.of(lines)), yard.terrain(), yard.water());
    assertEquals(List.of(), plan.rejected());
    assertEquals(1, plan.routes().size());
    return plan.routes().get(0);
  }

  private static PinnedLine line(String wkt, String part, String joins) {
    return new PinnedLine("mine", (LineString) Yard.wkt(wkt), "", "", part, joins);
  }

  private static List<Integer> joins(Route route) {
    return route.branches().stream().map(Route.Branch::joins).toList();
  }

  /** In whatever order they are drawn, and whichever way. */
  @Test
  void aLineThatEndsOnABranchIsABranchOfThat() {
    for (List<String> order :
        List.of(
            List.of(MAIN, BRANCH, TWIG),
            List.of(TWIG, BRANCH, MAIN),
            List.of("LINESTRING(26 36, 33 32)", "LINESTRING(20 30, 32 42)", MAIN))) {
      Route route =
          only(yard(0), order.stream().map(wkt -> line(wkt, "", "")).toArray(PinnedLine[]::new));
      assertEquals(List.of(0, 1), joins(route));
      assertTrue(route.audit().passed());
      double way = 36 + 12 * Math.sqrt(2) + Math.hypot(7, 4);
      assertEquals(way, route.lengthM(), 1e-6);
      assertEquals(6 * Math.sqrt(2), route.branches().get(1).junctionM(), 1e-6);
    }
  }

  /** A line from a hollow ends lower than the branch would lie: that and the main line make way. */
  @Test
  void theLinesBelowMakeWayForOneThatComesInLow() {
    Route route = only(yard(0.5), line(MAIN, "", ""), line(BRANCH, "", ""), line(TWIG, "", ""));
    assertEquals(List.of(0, 1), joins(route));
    DrainLine branch = route.branches().get(0).line();
    List<Station> twig = route.branches().get(1).line().stations();
    double arrives = twig.get(twig.size() - 1).invertM();
    // in the hollow the ground is at 10.46, the pipe at most 0.267 m lower and falls 1 % over 4 m
    assertTrue(arrives < 10.96 - 0.5 - 0.267 - 0.03, arrives + "");
    double there = DrainRouter.invertAt(branch, route.branches().get(1).junctionM());
    assertTrue(there <= arrives + 1e-6, there + " against " + arrives);
    Route high = only(yard(0), line(MAIN, "", ""), line(BRANCH, "", ""), line(TWIG, "", ""));
    double was =
        DrainRouter.invertAt(high.branches().get(0).line(), high.branches().get(1).junctionM());
    assertTrue(there < was - 0.2, there + " against " + was);
  }

  /** Where two lines lie within reach of an end, the one that it names is joined. */
  @Test
  void theLineThatIsNamedIsJoined() {
    String near =
        "LINESTRING(33 26, 20.35 30)"; // 0.35 m from the main line, 0.25 m from the branch
    PinnedLine main = line(MAIN, "main", "");
    PinnedLine branch = line(BRANCH, "B1", "main");
    assertEquals(List.of(0, 0), joins(only(yard(0), main, branch, line(near, "B2", "main"))));
    assertEquals(List.of(0, 1), joins(only(yard(0), main, branch, line(near, "B2", "B1"))));
  }

  @Test
  void aLineThatIsNotThereCannotBeJoined() {
    Yard yard = yard(0);
    List<PinnedLine> lines = Arrays.asList(line(MAIN, "main", ""), line(BRANCH, "B1", "B7"));
    BadInputException no =
        assertThrows(
            BadInputException.class, () -> PinnedTargets.checked(yard.site().withPinned(lines)));
    assertTrue(no.getMessage().contains("no line of it is part 'B7'"), no.getMessage());
  }
}
