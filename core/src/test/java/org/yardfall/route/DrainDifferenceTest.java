package org.yardfall.route;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.LineString;

/** Which drains are offered beside a better one: those that are really others. */
class DrainDifferenceTest {

  private static final Collector NORTH =
      new Collector(
          DrainKind.PERIMETER,
          List.of((LineString) Yard.wkt("LINESTRING(0 0, 40 0)")),
          "water arrives",
          List.of(),
          100);

  /** A drain of one depth along a line. */
  private static RouteRanking.Candidate drain(
      String wkt, String outletId, double price, double depthM, double disturbance) {
    List<Coordinate> bends = List.of(Yard.wkt(wkt).getCoordinates());
    List<Station> stations = new ArrayList<>();
    double station = 0;
    for (int i = 0; i < bends.size(); i++) {
      station += i == 0 ? 0 : bends.get(i).distance(bends.get(i - 1));
      double ground = 10 - 0.01 * station;
      stations.add(
          new Station(
              station,
              bends.get(i).x,
              bends.get(i).y,
              ground,
              ground - depthM,
              depthM - 0.117,
              depthM,
              0.01,
              Station.Span.OPEN));
    }
    Draft draft =
        new Draft(outletId, new DrainLine(bends, stations), List.of(), price, List.of(), List.of());
    return new RouteRanking.Candidate(
        NORTH,
        draft,
        new Crossings(List.of(), List.of()),
        new Audit(List.of()),
        price,
        disturbance,
        List.of());
  }

  /** 40 m straight against a line that turns off square after a while: 1 m of the turn is near. */
  @Test
  void theShareIsWhatLiesOverAMetreFromTheOtherOfTheLongerPart() {
    RouteRanking.Candidate straight = drain("LINESTRING(0 0, 40 0)", "CB1", 100, 0.8, 40);
    RouteRanking.Candidate turns = drain("LINESTRING(0 0, 25 0, 25 15)", "CB1", 100, 0.8, 40);
    // 14 of its 40 m; of the straight one, 15 m less the metre that is near the turn
    assertEquals(14.0 / 40, DrainDifference.share(straight.draft(), turns.draft()), 1e-3);
    assertEquals(14.0 / 40, DrainDifference.share(turns.draft(), straight.draft()), 1e-3);
    assertTrue(DrainDifference.differ(straight, turns));
    // a short drain that lies wholly in a long one's way is still another than the long one
    RouteRanking.Candidate half = drain("LINESTRING(20 0, 40 0)", "CB1", 60, 0.8, 20);
    assertEquals(19.0 / 40, DrainDifference.share(half.draft(), straight.draft()), 1e-3);
    RouteRanking.Candidate beside = drain("LINESTRING(0 0.8, 40 0.8)", "CB1", 100, 0.8, 40);
    assertEquals(0, DrainDifference.share(beside.draft(), straight.draft()), 1e-9);
    assertFalse(DrainDifference.differ(straight, beside));
    assertTrue(
        DrainDifference.differ(straight, drain("LINESTRING(0 0, 40 0)", "CB2", 100, 0.8, 40)));
  }

  /** The second costs and digs as much along the same way: it is no choice, the third is. */
  @Test
  void whatIsNearlyTheSameIsLeftOutAndSaid() {
    RouteRanking.Candidate best = drain("LINESTRING(0 0, 40 0)", "CB1", 1000, 0.80, 40);
    RouteRanking.Candidate same = drain("LINESTRING(0 0.8, 40 0.8)", "CB1", 1005, 0.79, 41);
    RouteRanking.Candidate other =
        drain("LINESTRING(0 0, 0 10, 40 10, 40 0)", "CB1", 1400, 0.8, 60);
    RouteRanking ranking = ranking(best, same, other);
    assertEquals(List.of(best, other), ranking.ranked());
    assertTrue(said(ranking, 0, "no third drain was found that is really different"));
    // the 40 m beyond and the upper 9 m at each side, of 60 m
    assertTrue(said(ranking, 1, "97 % of its way lies elsewhere than that of R1"));
    assertTrue(said(ranking(best), 0, "no other drain was found that works"));
  }

  /** Along the same way, but clearly shallower or gentler: offered for that. */
  @Test
  void whatGainsAlongTheSameWayIsOffered() {
    RouteRanking.Candidate best = drain("LINESTRING(0 0, 40 0)", "CB1", 1000, 0.80, 40);
    RouteRanking.Candidate shallow = drain("LINESTRING(0 0.8, 40 0.8)", "CB1", 1100, 0.70, 41);
    RouteRanking.Candidate gentle = drain("LINESTRING(0 0.4, 40 0.4)", "CB1", 1200, 0.80, 30);
    RouteRanking ranking = ranking(best, shallow, gentle);
    assertEquals(List.of(best, shallow, gentle), ranking.ranked());
    assertTrue(said(ranking, 1, "shallowest of the 3 perimeter drains"));
    assertTrue(said(ranking, 2, "disturbs lawn, roots and paving least"));
    assertFalse(said(ranking, 0, "no third drain"));
  }

  private static RouteRanking ranking(RouteRanking.Candidate... candidates) {
    return new RouteRanking(List.of(NORTH), List.of(candidates), draft -> 100, PriceWord.NET_PRICE);
  }

  private static boolean said(RouteRanking ranking, int index, String words) {
    return ranking.reasons(index).stream().anyMatch(reason -> reason.contains(words));
  }
}
