package org.yardfall.drain;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.yardfall.site.Building;
import org.yardfall.site.Given;
import org.yardfall.site.Obstacle;
import org.yardfall.site.Outlet;
import org.yardfall.site.UnitSystem;

class CautionTest {

  private static Optional<Caution> caution(Yard yard, String code) {
    return yard.design().cautions().stream().filter(c -> c.code().equals(code)).findFirst();
  }

  private static void obstacle(Yard yard, Obstacle.Kind kind, double y, double clearanceM) {
    Geometry point = Yard.FACTORY.createPoint(new Coordinate(33, y));
    yard.obstacles.add(Given.obstacle("X1", kind, point, clearanceM, Obstacle.Passage.UNDER, 0));
  }

  private static void checkNear(Obstacle.Kind kind, double within, String code) {
    Yard near = new Yard();
    obstacle(near, kind, 19 - within + 0.01, 0.5);
    Caution found = caution(near, code).orElseThrow();
    assertEquals(33, found.stationM(), 1e-9);
    assertEquals(within - 0.01, found.valueM(), 1e-9);
    assertEquals(within, found.thresholdM(), 1e-9);
    Yard far = new Yard();
    obstacle(far, kind, 19 - within - 0.01, 0.5);
    assertTrue(caution(far, code).isEmpty());
  }

  /** 24 in each side of a utility is dug by hand: call-before-you-dig rules of several states. */
  @Test
  void aUtilityWithinTwoFeetIsNamedWithItsStation() {
    checkNear(Obstacle.Kind.UTILITY, 0.6096, "utility-near");
  }

  @Test
  void septicFieldsAndWellsAndRootsAreNamed() {
    checkNear(Obstacle.Kind.SEPTIC, 50 * 0.3048, "septic-near");
    checkNear(Obstacle.Kind.WELL, 100 * 0.3048, "well-near");
    checkNear(Obstacle.Kind.TREE, 0.5, "roots");
  }

  @Test
  void anEasementThatTheLineEntersIsNamedByItsStationAlone() {
    Yard yard = new Yard();
    Geometry strip = Yard.FACTORY.createPoint(new Coordinate(33, 19)).buffer(1);
    yard.obstacles.add(
        Given.obstacle("E1", Obstacle.Kind.EASEMENT, strip, 0, Obstacle.Passage.UNDER, 0));
    String said = caution(yard, "easement").orElseThrow().sentence(UnitSystem.METRIC);
    assertTrue(
        said.matches("main station \\d+\\.\\d\\d m: The line enters easement E1: its holder.*"),
        said);
  }

  /** A gravel end that freezes stops taking water: ground frozen about 30 in deep. */
  @Test
  void aPipeAboveTheFrostIsToldByHowMuch() {
    Yard yard = new Yard();
    assertTrue(caution(yard, "frost").orElseThrow().words().contains("was not given"));
    yard.soil = Given.freezing('D', OptionalDouble.empty(), 0.762);
    Caution frost = caution(yard, "frost").orElseThrow();
    assertEquals(0.762, frost.thresholdM(), 1e-12);
    assertTrue(frost.words().contains("freezes 0.76 m deep"), frost.words());
    assertTrue(frost.words().contains("stops working in the cold"), frost.words());
  }

  @Test
  void everyDrainIsToldOfUtilitiesAndTheLaw() {
    assertTrue(caution(new Yard(), "utility-locate").orElseThrow().words().contains("811"));
    assertTrue(caution(new Yard(), "drainage-law").isPresent());
    assertTrue(
        new Yard()
            .design().cautions().stream()
                .filter(c -> c.code().equals("utility-locate") || c.code().equals("drainage-law"))
                .allMatch(c -> c.words().contains("Local code and licensed practice decide")));
  }

  /** The deepest trench is 1.1 m at the invert, dug 1.158 m: below 4 ft. Deeper brings duties. */
  @Test
  void aDeepTrenchNeedsAWayOutAndThenProtection() {
    Yard yard = new Yard();
    assertTrue(caution(yard, "trench-egress").isEmpty());
    assertTrue(caution(yard, "spoil-back").isPresent());
    yard.grade = 0.02;
    Caution egress = caution(yard, "trench-egress").orElseThrow();
    assertEquals(60, egress.stationM(), 0);
    assertEquals(1.7 + 0.00762 + 0.0508, egress.valueM(), 1e-9);
    assertTrue(caution(yard, "trench-protection").isPresent());
  }

  /**
   * A footing 0.4 to 0.5 m below ground, 0.3 m from the trench's edge: bottom 0.6 m lower at most.
   */
  @Test
  void aTrenchWithinTheFootingsInfluenceIsNamed() {
    Yard yard = new Yard();
    // The drain's centre runs 0.5 m north of the building, its edge 0.2714 m.
    yard.buildings.add(new Building("B1", Yard.box(20, 10, 50, 18.5), OptionalDouble.of(100.0)));
    Caution found = caution(yard, "footing-influence").orElseThrow();
    assertEquals(0.5 - 0.2286, found.valueM(), 1e-9);
    double bottom = Yard.groundM(19) - (0.5 + 0.01 * 50 + 0.00762 + 0.0508);
    assertEquals(100.0 - bottom, found.thresholdM(), 0.006);
    assertEquals(50, found.stationM(), 0.5);
    yard.buildings.clear();
    yard.buildings.add(new Building("B1", Yard.box(20, 10, 50, 17), OptionalDouble.of(100.0)));
    assertTrue(caution(yard, "footing-influence").isEmpty());
  }

  @Test
  void theOutletsKindDecidesWhatIsSaidOfIt() {
    checkOutlet(Outlet.Kind.CATCH_BASIN, "sewer-tie-in");
    checkOutlet(Outlet.Kind.STREET, "outlet-permit");
    checkOutlet(Outlet.Kind.DAYLIGHT, "outlet-scour");
    checkOutlet(Outlet.Kind.DRY_WELL, "dry-well");
  }

  private static void checkOutlet(Outlet.Kind kind, String code) {
    Yard yard = new Yard();
    yard.outletKind = kind;
    assertEquals(60, caution(yard, code).orElseThrow().stationM(), 0);
    // The outlet lies 1 m from the neighbour's land.
    assertEquals(1, caution(yard, "neighbour-near").orElseThrow().valueM(), 1e-9);
  }

  @Test
  void aCautionReadsWithItsPlaceAndNumbers() {
    Caution caution = new Caution("x", "main", 12.34, 1.3, 1.2192, "Mind.");
    assertEquals(
        "main station 12.34 m (1.30 m, not less than 1.22 m): Mind.",
        caution.sentence(UnitSystem.METRIC));
    assertEquals(
        "main station 40.5 ft (4.3 ft, not less than 4.0 ft): Mind.",
        caution.sentence(UnitSystem.US));
    List<Caution> all = new Yard().design().cautions();
    assertTrue(all.stream().allMatch(c -> c.sentence(UnitSystem.METRIC).endsWith(".")));
  }
}
