package org.yardfall.route;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;

/** What joins a main line: the quick refusal against the search that it saves. */
class JunctionsTest {

  @Test
  void whatIsRefusedUnsearchedIsNotFoundBySearching() {
    int refused = 0;
    int joined = 0;
    for (long seed = 0; seed < 40; seed++) {
      RandomLots lot = RandomLots.of(seed);
      if (!lot.collectorsPermitted()) {
        continue;
      }
      Optional<Draft> draft =
          DrainRouter.of(lot.ground(), lot.collectors())
              .route(lot.targets(), lot.bounds(), BruteForce.COST);
      if (draft.isEmpty()) {
        continue;
      }
      Junctions junctions = new Junctions(lot.ground(), draft.get().main(), lot.bounds());
      Random random = new Random(seed);
      for (int i = 0; i < 20; i++) {
        int cell = random.nextInt(lot.ground().frame().size());
        if (!lot.ground().open(cell)) {
          continue;
        }
        Coordinate at = lot.ground().graph().centre(cell);
        double invertM =
            lot.bounds().highest(lot.ground().graph().groundM(cell)) - 0.3 * random.nextDouble();
        CollectorArms.Exit exit =
            new CollectorArms.Exit(List.of(at), List.of(), invertM, invertM, 0);
        boolean found =
            TrunkFinder.find(
                    lot.ground(),
                    List.of(new TrunkFinder.Start(at, invertM, 0)),
                    junctions.targets(),
                    lot.bounds(),
                    new StepCost(lot.ground(), BruteForce.COST),
                    GravityReachFinder.find(lot.ground(), junctions.targets(), lot.bounds()))
                .isPresent();
        boolean may =
            IntStream.range(0, junctions.targets().size())
                .anyMatch(t -> junctions.mayTake(exit, t));
        assertTrue(!found || may, "lot " + seed + ", cell " + cell);
        refused += may ? 0 : 1;
        joined += found ? 1 : 0;
      }
    }
    assertTrue(refused > 20 && joined > 20, refused + " refused, " + joined + " joined");
  }

  @Test
  void junctionsLieOnTheMainLineAtItsInverts() {
    for (long seed = 0; seed < 40; seed++) {
      RandomLots lot = RandomLots.of(seed);
      if (!lot.collectorsPermitted()) {
        continue;
      }
      DrainRouter.of(lot.ground(), lot.collectors())
          .route(lot.targets(), lot.bounds(), BruteForce.COST)
          .map(Draft::main)
          .ifPresent(
              main -> {
                Junctions junctions = new Junctions(lot.ground(), main, lot.bounds());
                for (int i = 0; i < junctions.targets().size(); i++) {
                  assertEquals(
                      DrainRouter.invertAt(main, junctions.stationM(i)),
                      junctions.targets().get(i).invertM(),
                      1e-9);
                }
              });
    }
  }
}
