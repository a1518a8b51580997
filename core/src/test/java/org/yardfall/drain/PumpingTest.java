package org.yardfall.drain;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.yardfall.runoff.Storm;
import org.yardfall.site.Given;
import org.yardfall.site.MadeUpSite;
import org.yardfall.site.OutletRules;
import org.yardfall.site.Prices;
import org.yardfall.site.Site;
import org.yardfall.site.UnitSystem;

/** An entry court below the curb: its drain ends in a sump, and a pump lifts the water. */
class PumpingTest {

  private static TakeOff bill(Yard yard, OutletRules rules) {
    Site site = MadeUpSite.like(yard.site()).outletRules(rules).make();
    return DrainDesigner.design(
            yard.route(), site, yard.terrain(), yard.water(), Storm.of(site.storm()))
        .takeOff();
  }

  private static TakeOff.Line line(TakeOff bill, String code) {
    return bill.lines().stream().filter(l -> l.code().equals(code)).findFirst().orElseThrow();
  }

  /** A pump's discharge takes a one-way valve ({@code common practice, no source}). */
  @Test
  void aPumpedDrainTakesSumpPumpAndOneWayValve() {
    Yard yard = new Yard();
    TakeOff bill = bill(yard, Given.pumped());
    for (String code : new String[] {"sump", "pump", "check-valve"}) {
      assertEquals(1, line(bill, code).sold());
    }
    assertEquals(
        yard.prices.get(Prices.Item.VALVE), line(bill, "check-valve").amount().orElseThrow(), 1e-9);
    assertTrue(line(bill, "sump").how().contains("2.00 h without power"));
    // Whatever way the drain goes it takes them: they have no part in what the search weighed.
    assertEquals(bill(yard, OutletRules.usual()).netTotal(), bill.netTotal(), 1e-9);
  }

  @Test
  void aDrainByGravityTakesNone() {
    TakeOff bill = bill(new Yard(), OutletRules.usual());
    assertTrue(
        bill.lines().stream().noneMatch(l -> l.code().matches("sump|pump|check-valve")),
        bill.toString());
  }

  @Test
  void withoutItsPriceTheValveStandsWithoutAnAmount() {
    Yard yard = new Yard();
    yard.prices.remove(Prices.Item.VALVE);
    TakeOff bill = bill(yard, Given.pumped());
    assertTrue(line(bill, "check-valve").amount().isEmpty());
    assertTrue(bill.missing().contains(Prices.Item.VALVE));
  }

  /** 24 m³ in a day of 24 h are 1 m³ an hour; two hours without power ask for 2 m³. */
  @Test
  void theSumpHoldsTheMeanInflowWhileThereIsNoPower() {
    Storm day = Storm.of(Given.storm(0.065));
    Pumping pumping = pumping(day, 0);
    assertEquals(1, pumping.meanM3H(), 1e-12);
    assertEquals(2, pumping.storedM3(), 1e-12);
    // Groundwater of 0.1 l/s adds 0.36 m³ an hour.
    assertEquals(1.36, pumping(day, 1e-4).meanM3H(), 1e-12);
  }

  private static Pumping pumping(Storm day, double groundwaterM3S) {
    Yard yard = new Yard();
    return Pumping.of(
        Given.pumped(),
        day,
        0.004,
        24,
        groundwaterM3S,
        yard.route().main().stations().get(12),
        yard.site().outlets().get(0));
  }

  /**
   * The drain ends 1.1 m below the ground: the water is lifted from there to the lid if the outlet
   * has one, else to the water outside if that stands above the ground, else to the ground.
   */
  @Test
  void theLiftIsFromTheDrainsEndToWhereTheWaterIsLetGo() {
    double ground = Yard.groundM(19);
    checkLift(1.1, new Yard(), "the ground there at 100.475 m");
    Yard flooded = new Yard();
    flooded.waterLevelM = OptionalDouble.of(ground + 0.2);
    checkLift(1.3, flooded, "the water outside at 100.675 m");
    Yard lidded = new Yard();
    lidded.waterLevelM = flooded.waterLevelM;
    lidded.lidM = OptionalDouble.of(ground + 0.4);
    checkLift(1.5, lidded, "the water over the outlet's lid at 100.875 m");
    Yard low = new Yard();
    low.waterLevelM = OptionalDouble.of(ground - 0.5);
    checkLift(1.1, low, "the ground there at 100.475 m");
  }

  private static void checkLift(double expectedM, Yard yard, String to) {
    String how = line(bill(yard, Given.pumped()), "pump").how();
    double said = Double.parseDouble(how.replaceAll(".*static lift of ([0-9.]+) m.*", "$1"));
    double from = Double.parseDouble(how.replaceAll(".*drain's end at ([0-9.]+) m.*", "$1"));
    assertEquals(expectedM, said, 1e-9, how);
    assertEquals(99.375, from, 1e-9, how);
    assertTrue(how.contains(to), how);
  }

  /** What stands at the outlet holds back a drain by gravity; a pumped one does not feel it. */
  @Test
  void whatStandsOutsideDoesNotReachAPumpedDrain() {
    Yard yard = new Yard();
    yard.waterLevelM = OptionalDouble.of(Yard.groundM(19) - 0.2);
    yard.lidM = OptionalDouble.of(Yard.groundM(19) + 0.4);
    assertTrue(yard.design().main().hydraulic().backwaterM() > 10);
    Site site = MadeUpSite.like(yard.site()).outletRules(Given.pumped()).make();
    DrainDesign design =
        DrainDesigner.design(
            yard.route(), site, yard.terrain(), yard.water(), Storm.of(site.storm()));
    assertEquals(0, design.main().hydraulic().backwaterM(), 0);
    List<String> findings = DrainFindings.of(design, site, UnitSystem.METRIC);
    assertTrue(
        findings.stream()
            .anyMatch(
                f ->
                    f.startsWith("A pump lifts its water 1.50 m")
                        && f.contains("the water over the outlet's lid")
                        && f.endsWith("for 2.0 hours without power.")),
        findings.toString());
    assertTrue(findings.stream().noneMatch(f -> f.contains("before it opens")));
  }
}
