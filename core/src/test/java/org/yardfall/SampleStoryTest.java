package org.yardfall;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.drain.DrainDesign;
import org.yardfall.drain.DrainDesigner;
import org.yardfall.drain.LineDesign;
import org.yardfall.drain.RoofInlet;
import org.yardfall.drain.StretchDesign;
import org.yardfall.drain.TakeOff;
import org.yardfall.elevation.ElevationSource;
import org.yardfall.layer.Result;
import org.yardfall.route.Bore;
import org.yardfall.route.Rejection;
import org.yardfall.route.Route;
import org.yardfall.route.Station;
import org.yardfall.runoff.DrainEffect;
import org.yardfall.runoff.InflowLedger;
import org.yardfall.runoff.Storm;
import org.yardfall.site.BadInputException;
import org.yardfall.site.Given;
import org.yardfall.site.Site;
import org.yardfall.site.SiteReader;
import org.yardfall.site.StormInput;

/** The whole job on the invented samples, held to what must be true of every plan. */
class SampleStoryTest {

  private static final Map<String, Result> DONE = new HashMap<>();

  private static Site site(String sample, String lot) {
    return SiteReader.read(
        Path.of("..", "samples", sample, "site.yml"), Optional.of(lot), ElevationSource.PLANES);
  }

  /** Each lot is worked once for all tests. */
  private static synchronized Result result(String sample, String lot) {
    return DONE.computeIfAbsent(sample + "/" + lot, key -> Screening.of(site(sample, lot)).run());
  }

  @Test
  void theSoggyYardGetsADrain() {
    checkDrained(result("fernhill", "2"));
  }

  @Test
  void thePondBehindTheDitchBankGetsADrain() {
    checkDrained(result("fernhill", "9"));
  }

  @Test
  void theHollowBelowTheHillsideGetsADrain() {
    Result result = result("alder-row", "B");
    checkDrained(result);
    TakeOff takeOff = result.designs().get(0).takeOff();
    assertFalse(takeOff.complete()); // two prices were given
    assertTrue(takeOff.netTotal() < result.routes().get(0).searchPrice());
  }

  /**
   * The price by which a route was ranked and its bill differ by nothing but what pipes larger than
   * the planned one change.
   */
  private static void checkPrice(Result result) {
    for (int i = 0; i < result.designs().size(); i++) {
      TakeOff takeOff = result.designs().get(i).takeOff();
      if (takeOff.complete()) {
        assertEquals(
            result.routes().get(i).searchPrice() + takeOff.largerPipes(), takeOff.netTotal(), 1e-6);
      }
    }
  }

  /** What the route says lies under its slabs is what is sized and billed. */
  private static void checkBores(Result result) {
    for (int i = 0; i < result.designs().size(); i++) {
      Route route = result.routes().get(i);
      assertEquals(result.designs().get(i).bores(route), route.bores());
      long said = route.crosses().stream().filter(c -> c.contains(", bored, ")).count();
      for (Bore bore : route.bores()) {
        assertTrue(
            said == 0 || route.crosses().stream().anyMatch(c -> c.endsWith(bore.pipes().words())),
            route.crosses().toString());
      }
    }
  }

  private static void checkDrained(Result result) {
    checkPrice(result);
    checkBores(result);
    checkCloses(result.ledger().orElseThrow());
    assertTrue(result.routes().get(0).audit().passed());
    assertEquals(result.routes().size(), result.designs().size());
    for (int i = 0; i < result.routes().size(); i++) {
      DrainDesign design = result.designs().get(i);
      DrainEffect effect = result.effects().get(i);
      checkCloses(effect.after());
      assertTrue(effect.captured().areaM2() <= design.catchment().areaM2() * (1 + 1e-9));
      assertTrue(effect.capturedM3() <= design.catchment().volumeM3() * (1 + 1e-9));
      checkRoofWaterIsRefused(result, result.routes().get(i));
    }
  }

  private static void checkCloses(InflowLedger ledger) {
    InflowLedger.Balance b = ledger.balance();
    assertEquals(0, b.errorM3(), 1e-9 * (b.inflowM3() + b.ownRainM3()));
  }

  /** A downspout led to the upper end of a drain that is perforated anywhere. */
  private static void checkRoofWaterIsRefused(Result result, Route route) {
    if (route.main().stations().stream().noneMatch(s -> s.span() == Station.Span.OPEN)) {
      return;
    }
    Coordinate head = route.main().vertices().get(0);
    DrainDesigner designer = designer(result, Storm.of(result.site().storm()));
    assertThrows(
        BadInputException.class,
        () -> designer.design(route, List.of(new RoofInlet("downspout", head))));
  }

  private static DrainDesigner designer(Result result, Storm storm) {
    return DrainDesigner.of(
        result.site().withOutlets(result.outlets()), result.terrain(), result.water(), storm);
  }

  @Test
  void moreRainNeverTakesASmallerPipe() {
    Result result = result("fernhill", "9");
    Route best = result.routes().get(0);
    DrainDesign last = null;
    for (double depthM : new double[] {0.03, 0.065, 0.13}) {
      Storm storm =
          Storm.of(
              new StormInput(
                  OptionalDouble.of(depthM),
                  OptionalDouble.of(86_400),
                  null,
                  OptionalDouble.empty()));
      DrainDesign design = designer(result, storm).design(best);
      if (last != null) {
        checkNoSmaller(last, design);
      }
      last = design;
    }
  }

  private static void checkNoSmaller(DrainDesign less, DrainDesign more) {
    for (int l = 0; l < less.lines().size(); l++) {
      LineDesign a = less.lines().get(l);
      LineDesign b = more.lines().get(l);
      for (int s = 0; s < a.stretches().size(); s++) {
        StretchDesign small = a.stretches().get(s);
        StretchDesign large = b.stretches().get(s);
        assertTrue(large.pipe().insideM() >= small.pipe().insideM());
        assertTrue(large.flowM3S() >= small.flowM3S() - 1e-12);
      }
    }
  }

  @Test
  void theSunkenLotHasNoRouteAndItsLesserGradeGrantedItHasOne() {
    Result result = result("fernhill", "12");
    assertTrue(result.routes().isEmpty());
    Rejection nearest =
        result.plan().rejected().stream()
            .filter(r -> leastGrade(r).isPresent())
            .max(Comparator.comparingDouble(r -> leastGrade(r).orElseThrow()))
            .orElseThrow();
    double grade = Math.floor(leastGrade(nearest).orElseThrow() * 1e5) / 1e5;
    Site asked = site("fernhill", "12");
    assertTrue(grade > 0 && grade < asked.drain().minGrade());
    Result again = Screening.of(asked.withDrain(Given.falling(asked.drain(), grade))).run();
    assertTrue(
        again.routes().stream().anyMatch(r -> r.outletId().equals(nearest.outletId())),
        "granted " + grade + " to " + nearest.outletId());
  }

  private static OptionalDouble leastGrade(Rejection rejection) {
    return rejection.relax().stream()
        .filter(x -> x.limit().equals("min-grade"))
        .mapToDouble(Rejection.Relaxation::by)
        .findFirst();
  }
}
