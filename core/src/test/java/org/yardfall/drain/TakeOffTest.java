package org.yardfall.drain;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.drain.TakeOff.Line;
import org.yardfall.pipe.Manning;
import org.yardfall.route.Bore;
import org.yardfall.route.DrainLine;
import org.yardfall.route.LaidCost;
import org.yardfall.route.Route;
import org.yardfall.route.SlabPipes;
import org.yardfall.route.Spans;
import org.yardfall.route.Station;
import org.yardfall.route.TrenchCost;
import org.yardfall.site.Given;
import org.yardfall.site.Obstacle;
import org.yardfall.site.Prices;
import org.yardfall.site.Surface;
import org.yardfall.site.UnitSystem;
import org.yardfall.trench.GroundCover;
import org.yardfall.trench.MetrePrice;
import org.yardfall.trench.Work;

class TakeOffTest {

  private static Line line(TakeOff takeOff, String code) {
    return takeOff.lines().stream().filter(l -> l.code().equals(code)).findFirst().orElseThrow();
  }

  /** A line with a turn, a bored stretch and a stretch through roots, and a branch. */
  private static Route mixed(Yard yard) {
    yard.obstacles.add(
        Given.obstacle(
            "T1",
            Obstacle.Kind.TREE,
            Yard.FACTORY.createPoint(new Coordinate(42, 12)),
            4,
            Obstacle.Passage.SOLID_PIPE,
            0));
    DrainLine open = yard.line(9, 0.6, Station.Span.OPEN);
    DrainLine spans =
        Spans.of(
            open,
            s ->
                s.stationM() == 15
                    ? Station.Span.BORED
                    : s.stationM() >= 40 && s.stationM() < 45 ? Station.Span.SOLID : s.span());
    DrainLine main =
        new DrainLine(
            List.of(new Coordinate(0, 9), new Coordinate(30, 9), new Coordinate(60, 19)),
            spans.stations());
    return Yard.route(main, new Route.Branch(yard.line(19, 0.5, Station.Span.OPEN), 60));
  }

  /** The price that the search weighed with and the bill come to the same. */
  @Test
  void theBillIsThePriceOfTheRoute() {
    Yard yard = new Yard();
    Route route = mixed(yard);
    DrainDesign design = yard.design(route);
    MetrePrice price = MetrePrice.of(yard.site());
    GroundCover cover = GroundCover.of(yard.site());
    double expected =
        LaidCost.of(route.main(), cover, TrenchCost.price(price))
            + LaidCost.of(route.branches().get(0).line(), cover, TrenchCost.price(price))
            + price.fitting();
    assertTrue(
        design.lines().stream()
            .flatMap(l -> l.stretches().stream())
            .allMatch(s -> s.pipe().nominalIn() == 4));
    assertEquals(expected, design.takeOff().netTotal(), 1e-6);
    assertEquals(5, line(design.takeOff(), "bore").needed(), 1e-9);
    assertEquals(5, line(design.takeOff(), "tree-zone").needed(), 1e-9);
    assertTrue(design.takeOff().complete());
  }

  /**
   * Two 4 in pipes side by side under a slab ({@code common practice, no source}): bored twice,
   * with a wye and two reducers at each end; the bill follows the search there too.
   */
  @Test
  void twoPipesUnderASlabAreBoredTwice() {
    Yard yard = new Yard();
    Route one = mixed(yard);
    Route two = one.withBores(List.of(new Bore(0, 15, 20, SlabPipes.two())));
    TakeOff single = yard.design(one).takeOff();
    DrainDesign design = yard.design(two);
    TakeOff twin = design.takeOff();
    assertEquals(5, line(single, "bore").needed(), 1e-9);
    assertEquals(10, line(twin, "bore").needed(), 1e-9);
    assertEquals(2, line(twin, "slab-wye").needed(), 0);
    assertEquals(4, line(twin, "slab-reducer").needed(), 0);
    // The wyes take the place of the two couplings.
    assertEquals(2, line(twin, "coupling").needed(), 0);
    MetrePrice price = MetrePrice.of(yard.site());
    double more =
        5 * price.metre(Work.BORED, 0, Surface.Kind.LAWN)
            + SlabPipes.two().fittings() * price.fitting();
    assertEquals(single.netTotal() + more, twin.netTotal(), 1e-6);
    StretchDesign bored = design.main().stretches().get(3);
    assertEquals("2 × 4 in solid Schedule 40 PVC", bored.pipeWords());
    assertEquals(
        2 * Manning.fullM3S(SlabPipes.two().pipe(), bored.grade()), bored.capacityM3S(), 1e-12);
    assertTrue(
        design.cautions().stream()
            .anyMatch(
                c ->
                    c.code().equals("bore-side-by-side") && c.stationM() == 15 && c.valueM() == 5));
    // The planned pipe is 4 in here: two of the same carry twice as much.
    assertTrue(
        DrainFindings.of(design, yard.site(), UnitSystem.METRIC).stream()
            .anyMatch(
                f -> f.contains("two 4 in pipes in place of one: side by side they carry 200 %")));
  }

  /** A 6 in pipe in place of stone: recomputed from the two outside diameters. */
  @Test
  void largerPipesThanPlannedAreTheDifferenceToTheSearch() {
    Yard yard = new Yard();
    yard.rainM = 0.3;
    DrainDesign design = yard.design();
    double expected = 0;
    for (StretchDesign s : design.main().stretches()) {
      double wall = (s.pipe().outsideM() - s.pipe().insideM() - (0.11684 - 0.1016)) / 2;
      double stone =
          0.4572 * wall - Math.PI / 4 * (Math.pow(s.pipe().outsideM(), 2) - 0.11684 * 0.11684);
      double per =
          wall / 0.6 * yard.prices.get(Prices.Item.TRENCH)
              + stone * 87.2 * 0.0160184634 * yard.prices.get(Prices.Item.STONE)
              + 2 * wall * yard.prices.get(Prices.Item.FABRIC)
              + 0.4572 * wall * 1.40 * yard.prices.get(Prices.Item.HAUL_OFF);
      expected += per * s.lengthM();
    }
    assertTrue(design.main().stretches().get(11).pipe().nominalIn() > 4);
    assertEquals(expected, design.takeOff().largerPipes(), 1e-6);
    assertTrue(
        DrainFindings.of(design, yard.site(), UnitSystem.METRIC).stream()
            .anyMatch(
                f ->
                    f.contains(
                        "4 in perforated corrugated polyethylene throughout; larger pipes")));
    assertEquals(0, new Yard().design().takeOff().largerPipes(), 1e-9);
  }

  @Test
  void everyAmountIsItsQuantityTimesItsPrice() {
    TakeOff takeOff = new Yard().design().takeOff();
    double sum = 0;
    for (Line l : takeOff.lines()) {
      if (l.unitPrice().isPresent()) {
        double exact = l.sold() * l.unitPrice().getAsDouble();
        double amount = l.amount().orElseThrow();
        assertEquals(exact, amount, 0.005 + 1e-9);
        // Printed to the hundredth, so that what is printed adds up.
        assertEquals(Math.rint(100 * amount), 100 * amount, 1e-6);
        sum += l.amount().getAsDouble();
      }
      assertTrue(l.sold() >= l.needed() - 1e-9, l.code());
      assertFalse(l.rule().isEmpty());
      assertFalse(l.how().isEmpty());
    }
    assertEquals(sum, takeOff.total(), 1e-9);
  }

  /** 60 m of trench recomputed by hand from width and mean depth. */
  @Test
  void quantitiesAreThoseOfTheTrench() {
    Yard yard = new Yard();
    TakeOff takeOff = yard.design().takeOff();
    double dug = 0.8 + (0.11684 - 0.1016) / 2 + 0.0508;
    double width = 0.4572;
    double sod = 0.0635;
    double stone = 60 * (width * (dug - sod) - Math.PI / 4 * 0.11684 * 0.11684);
    assertEquals(60 * width * dug, line(takeOff, "excavation").needed(), 1e-9);
    assertEquals(stone, line(takeOff, "stone-volume").needed(), 1e-9);
    assertEquals(stone * 87.2 * 0.0160184634, line(takeOff, "stone").needed(), 1e-9);
    assertEquals(Math.ceil(line(takeOff, "stone").needed()), line(takeOff, "stone").sold(), 1e-9);
    assertEquals(60 * width * (dug - sod) * 1.40, line(takeOff, "spoil").needed(), 1e-9);
    assertEquals(60 * width, line(takeOff, "sod").needed(), 1e-9);
    assertEquals(60, line(takeOff, "pipe").needed(), 1e-9);
    assertEquals(20 * 3.048, line(takeOff, "pipe").sold(), 1e-9);
    assertEquals(
        Math.ceil(line(takeOff, "spoil").needed() / 7.64554857984),
        line(takeOff, "loads").sold(),
        1e-9);
  }

  /**
   * Stone is bought by what it is priced by: 2000 lb to the short ton, 27 ft³ to the cubic yard. No
   * price moves by it, only what is rounded up.
   */
  @Test
  void stoneIsBoughtByTheUnitOfItsPrice() {
    Yard yard = new Yard();
    double tonnes = line(yard.design().takeOff(), "stone").needed();
    double cubicMetres = tonnes / (87.2 * 0.0160184634);
    checkStone(yard, Prices.StoneUnit.TON, tonnes, 2000 * 0.45359237e-3, "whole short tons");
    checkStone(yard, Prices.StoneUnit.T, tonnes, 1, "whole tonnes");
    checkStone(
        yard, Prices.StoneUnit.YD3, cubicMetres, 27 * Math.pow(0.3048, 3), "whole cubic yards");
    checkStone(yard, Prices.StoneUnit.M3, cubicMetres, 1, "whole cubic metres");
  }

  private static void checkStone(
      Yard yard, Prices.StoneUnit unit, double needed, double size, String rule) {
    double before = line(yard.design().takeOff(), "stone").netAmount().orElseThrow();
    yard.stoneSoldBy = java.util.Optional.of(unit);
    Line stone = line(yard.design().takeOff(), "stone");
    assertEquals(needed, stone.needed(), 1e-9);
    assertEquals(Math.ceil(needed / size) * size, stone.sold(), 1e-9);
    assertTrue(stone.rule().contains(rule), stone.rule());
    assertEquals(before, stone.netAmount().orElseThrow(), 1e-9);
  }

  @Test
  void aReaderInFeetBuysStoneByTheShortTonUnlessThePriceSaysOtherwise() {
    Yard yard = new Yard();
    assertEquals(
        java.util.Optional.of(Prices.StoneUnit.TON),
        yard.site().readIn(UnitSystem.US).prices().stoneSoldBy());
    yard.stoneSoldBy = java.util.Optional.of(Prices.StoneUnit.T);
    assertEquals(yard.stoneSoldBy, yard.site().readIn(UnitSystem.US).prices().stoneSoldBy());
  }

  /** Access every 100 ft and at bends ({@code common practice, no source}). */
  @Test
  void cleanOutsStandAtTheHeadAtBendsAndNotTooFarApart() {
    Yard yard = new Yard();
    // 60 m straight: one at the head, one in between, none at the outlet.
    assertEquals(2, line(yard.design().takeOff(), "clean-out").needed(), 0);
    TakeOff bent = yard.design(mixed(yard)).takeOff();
    // Main: head, bend at 30 m, one more in the 31.6 m that follow the vertices; branch: 2.
    assertEquals(1, line(bent, "bend").needed(), 0);
    assertEquals(1, line(bent, "wye").needed(), 0);
    assertEquals(4, line(bent, "clean-out").needed(), 0);
    assertEquals(4, line(bent, "coupling").needed(), 0);
  }

  /**
   * An old system bends at 9, 18 and 53 ft and is blocked 30 ft from its outlet: access at bends
   * and every 50 to 100 ft would have reached it. In 160 ft: the head, three bends, and one more in
   * the last 107 ft.
   */
  @Test
  void aBlockedOldLineWouldHaveHadAccessAtEachBendAndWithinAHundredFeet() {
    Yard yard = new Yard();
    double[] bends = {0, 9, 18, 53};
    List<Coordinate> vertices = new ArrayList<>();
    for (int i = 0; i < bends.length; i++) {
      double legM = i == 0 ? 0 : (bends[i] - bends[i - 1]) * 0.3048;
      // Each leg turns by a right angle, east or south.
      Coordinate last = i == 0 ? new Coordinate(2, 38) : vertices.get(i - 1);
      vertices.add(
          i % 2 == 1
              ? new Coordinate(last.x + legM, last.y)
              : new Coordinate(last.x, last.y - legM));
    }
    Coordinate third = vertices.get(3);
    vertices.add(new Coordinate(third.x, third.y - 107 * 0.3048));
    List<Station> stations = new ArrayList<>();
    double at = 0;
    for (int i = 0; i < vertices.size(); i++) {
      Coordinate v = vertices.get(i);
      at += i == 0 ? 0 : v.distance(vertices.get(i - 1));
      double ground = 100;
      double depth = 0.5 + 0.01 * at;
      stations.add(
          new Station(
              at,
              v.x,
              v.y,
              ground,
              ground - depth,
              depth - yard.limits.pipeOutsideM(),
              depth,
              0.01,
              Station.Span.OPEN));
    }
    TakeOff bill = yard.design(Yard.route(new DrainLine(vertices, stations))).takeOff();
    assertEquals(3, line(bill, "bend").needed(), 0);
    assertEquals(1 + 3 + 1, line(bill, "clean-out").needed(), 0);
  }

  @Test
  void missingPricesLeaveQuantitiesWithoutAmounts() {
    Yard yard = new Yard();
    yard.prices.remove(Prices.Item.STONE);
    TakeOff takeOff = yard.design().takeOff();
    assertEquals(Set.of(Prices.Item.STONE), takeOff.missing());
    assertTrue(line(takeOff, "stone").amount().isEmpty());
    assertTrue(line(takeOff, "stone").needed() > 0);
    assertFalse(takeOff.complete());
    assertTrue(
        DrainFindings.of(yard.design(), yard.site(), UnitSystem.METRIC).stream()
            .anyMatch(f -> f.startsWith("No price was given for stone")));
  }

  @Test
  void unitsConvertAtTheEdgeAndKeepTheAmount() {
    for (TakeOff.Measure measure : TakeOff.Measure.values()) {
      double quantity = measure.quantity(UnitSystem.US, 12.5);
      double price = measure.price(UnitSystem.US, 40);
      assertEquals(12.5 * 40, quantity * price, 1e-9);
    }
    assertEquals(1 / 0.3048, TakeOff.Measure.LENGTH.quantity(UnitSystem.US, 1), 1e-12);
    assertEquals("ton", TakeOff.Measure.MASS.unit(UnitSystem.US));
  }

  @Test
  void aPipeThatEndsInTheOpenGetsAScreen() {
    assertEquals(1, line(new Yard().design().takeOff(), "rodent-screen").needed(), 0);
  }
}
