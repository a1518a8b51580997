package org.yardfall.route;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import net.jqwik.api.Assume;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.ShrinkingMode;
import net.jqwik.api.constraints.LongRange;
import net.jqwik.api.lifecycle.AfterContainer;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.site.Outlet;
import org.yardfall.site.Surface;
import org.yardfall.trench.MetrePrice;
import org.yardfall.trench.Work;

/** What the search for a trunk leaves out never changes what it finds. */
class TrunkSearchPropertyTest {

  private static int found;
  private static int none;

  @AfterContainer
  static void bothAnswersWereMet() {
    assertTrue(found >= 20 && none >= 5, found + " trunks, " + none + " without");
  }

  @Property(tries = 150, seed = "20261125", shrinking = ShrinkingMode.OFF)
  void thePrunedSearchFindsWhatThePlainOneDoes(
      @ForAll @LongRange(min = 0, max = 1_000_000_000) long seed) {
    Random random = new Random(seed);
    RandomLots lot = RandomLots.of(seed);
    RouteGround ground = ground(random, lot.ground());
    List<TrunkFinder.Start> starts = starts(random, ground, lot.bounds());
    Assume.that(!starts.isEmpty() && ground.frame().cellM() == 1); // the plain search is slow
    TrenchCost measure =
        switch (random.nextInt(4)) {
          case 0 -> TrenchCost.price(MetrePrice.of(ground.site()));
          case 1 -> TrenchCost.depth();
          case 2 -> TrenchCost.disturbance();
          default -> BruteForce.COST;
        };
    StepCost cost = new StepCost(ground, measure);
    double plain =
        new PlainTrunkSearch(ground, lot.bounds(), cost, lot.targets()).leastCost(starts);
    Optional<TrunkFinder.Trunk> trunk =
        TrunkFinder.find(
            ground,
            starts,
            lot.targets(),
            lot.bounds(),
            cost,
            GravityReachFinder.find(ground, lot.targets(), lot.bounds()));
    assertEquals(plain < Double.POSITIVE_INFINITY, trunk.isPresent());
    trunk.ifPresent(
        t -> {
          assertEquals(0, t.stepM());
          assertEquals(plain, t.cost(), 1e-9 * (1 + plain));
        });
    found += trunk.isPresent() ? 1 : 0;
    none += trunk.isPresent() ? 0 : 1;
  }

  /**
   * Bores that cost next to nothing beside a turn, to and fro under a walk: the ways under it
   * multiply, and the search must not.
   */
  @Test
  void boresMuchCheaperThanATurnAreSearchedToTheEnd() {
    RouteGround ground =
        RouteFixtures.site()
            .lot(RouteFixtures.box(2, 2, 28, 22))
            .slab(RouteFixtures.box(14, 2, 15.2, 22))
            .outlet(RouteFixtures.outlet("A", Outlet.Kind.CATCH_BASIN, 20, 4, 19))
            .on(RouteFixtures.ground(60, 48, 0.5, (x, y) -> 20 + 0.01 * y));
    Bounds b = Bounds.of(ground.site().drain(), ground.settings());
    List<OutletTarget> targets = List.of(OutletTarget.of(ground.site().outlets().get(0), ground));
    Coordinate at = new Coordinate(8, 20);
    List<TrunkFinder.Start> starts =
        List.of(new TrunkFinder.Start(at, b.highest(ground.ground().bilinear(at.x, at.y)), 0));
    StepCost cost = new StepCost(ground, CHEAP_BORES);
    TrunkFinder.Trunk trunk =
        TrunkFinder.find(
                ground, starts, targets, b, cost, GravityReachFinder.find(ground, targets, b))
            .orElseThrow();
    assertEquals(
        new PlainTrunkSearch(ground, b, cost, targets).leastCost(starts), trunk.cost(), 1e-9);
  }

  private static final TrenchCost CHEAP_BORES =
      new TrenchCost() {
        @Override
        public double metre(Work work, double depthM, Surface.Kind cover) {
          return work == Work.BORED ? 0.01 : 10 + 10 * depthM;
        }

        @Override
        public double turn(double turnDeg) {
          return turnDeg > 1 ? 60 : 0;
        }
      };

  /** With the usual stencil or the finer one. */
  private static RouteGround ground(Random random, RouteGround made) {
    return random.nextInt(3) > 0
        ? made
        : RouteGround.of(made.site(), made.ground(), made.settings().withNeighbours(32));
  }

  /** Starts anywhere, at any depth that the bounds allow, each with a cost of its own. */
  private static List<TrunkFinder.Start> starts(Random random, RouteGround ground, Bounds b) {
    List<TrunkFinder.Start> starts = new ArrayList<>();
    int many = 1 + random.nextInt(4);
    for (int i = 0; i < 50 && starts.size() < many; i++) {
      int cell = random.nextInt(ground.frame().size());
      if (ground.open(cell)) {
        Coordinate at = ground.graph().centre(cell);
        double top = b.highest(ground.graph().groundM(cell));
        double low = b.lowest(ground.graph().groundM(cell));
        double share = random.nextBoolean() ? 0 : random.nextDouble();
        starts.add(new TrunkFinder.Start(at, top + share * (low - top), 10 * random.nextDouble()));
      }
    }
    return starts;
  }
}
