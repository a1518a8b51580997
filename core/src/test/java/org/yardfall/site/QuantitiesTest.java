package org.yardfall.site;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Inch and foot: exact by the international yard and pound agreement of 1959; US survey foot:
 * 1200/3937 m, Mendenhall Order 1893.
 */
class QuantitiesTest {

  @ParameterizedTest
  @CsvSource(
      quoteCharacter = '`',
      value = {
        "0.6, 0.6",
        "0.6 m, 0.6",
        "18 in, 0.4572",
        "2 ft, 0.6096",
        "6', 1.8288",
        "6' 3\", 1.9050",
        "2 ft 6 in, 0.762",
        "5 1/2 in, 0.1397",
        "1/2 in, 0.0127",
        "3 ft 5 1/2 in, 1.0541",
        "-2 ft 6 in, -0.762",
        "100mm, 0.1",
        "1 yd, 0.9144",
        "3937 ftUS, 1200",
        ".5 m, 0.5",
        "1e-2 m, 0.01"
      })
  void lengthsComeInMetres(String text, double metres) {
    assertEquals(metres, Quantities.lengthM(text), 1e-12);
  }

  @ParameterizedTest
  @CsvSource({
    "1 %, 0.01",
    "1%, 0.01",
    "0.01, 0.01",
    "1/8 in/ft, 0.010416666666666666",
    "1/4 in per ft, 0.020833333333333332",
    "1:100, 0.01",
    "5 mm/m, 0.005",
    "1 in / 10 ft, 0.008333333333333333"
  })
  void gradesAreRiseOverRun(String text, double grade) {
    assertEquals(grade, Quantities.grade(text), 1e-15);
  }

  @ParameterizedTest
  @CsvSource({"1 mm/h, 2.777777777777778e-7", "0.2 in/h, 1.4111111111111111e-6", "1e-6 m/s, 1e-6"})
  void conductivitiesComeInMetresPerSecond(String text, double metresPerSecond) {
    assertEquals(metresPerSecond, Quantities.velocityMS(text), 1e-18);
  }

  @ParameterizedTest
  @CsvSource({"24 h, 86400", "30 min, 1800", "1 d, 86400", "90 s, 90"})
  void timesComeInSeconds(String text, double seconds) {
    assertEquals(seconds, Quantities.timeS(text), 0);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"", "wide", "18 inn", "1,5 m", "2 in 3 ft", "1 2", "NaN", "Infinity m", "1e999"})
  void whatIsNoLengthIsSaid(String text) {
    IllegalArgumentException e =
        assertThrows(IllegalArgumentException.class, () -> Quantities.lengthM(text));
    assertTrue(e.getMessage().startsWith("'"), e.getMessage());
  }

  @ParameterizedTest
  @ValueSource(strings = {"24", "24 hours ago", "h"})
  void aTimeNeedsItsUnit(String text) {
    assertThrows(IllegalArgumentException.class, () -> Quantities.timeS(text));
  }

  @ParameterizedTest
  @ValueSource(strings = {"1", "1 mm", "1 mm/"})
  void aConductivityNeedsItsUnit(String text) {
    assertThrows(IllegalArgumentException.class, () -> Quantities.velocityMS(text));
  }

  @Property(seed = "20261125")
  void everyDoubleInMetresComesBackToTheBit(
      @ForAll @DoubleRange(min = -1e7, max = 1e7) double metres) {
    assertEquals(metres, Quantities.lengthM(metres + " m"), 0);
    assertEquals(metres, Quantities.lengthMm(metres + " mm"), 0);
  }

  /** A ton is the short ton of 2000 lb (907.18474 kg), a yard 0.9144 m. */
  @ParameterizedTest
  @CsvSource({
    "TRENCH, 40 per m, 40",
    "TRENCH, 12 per ft, 39.370078740157474",
    "TRENCH, 40, 40",
    "STONE, 55 per t, 55",
    "STONE, 50 per ton, 55.115565546",
    "HAUL_OFF, 30 per yd3, 39.23851858",
    "HAUL_OFF, 30 / cu yd, 39.23851858",
    "SOD, 1 per ft2, 10.763910417",
    "FITTING, 9.5 each, 9.5",
    "FITTING, 9.5 per each, 9.5"
  })
  void pricesComePerCountedUnit(Prices.Item item, String text, double price) {
    assertEquals(
        price,
        UnitPrice.parse(item, text.replace(" each", " per each").replace("per per", "per"), 0.45),
        1e-7);
  }

  @ParameterizedTest
  @CsvSource({
    "55 per t, T",
    "0.06 per kg, T",
    "50 / ton, TON",
    "0.03 per lb, TON",
    "41 per cu yd, YD3",
    "1.5 per ft3, YD3",
    "70 per m³, M3"
  })
  void stoneIsBoughtByWhatItIsPricedBy(String price, Prices.StoneUnit unit) {
    assertEquals(Optional.of(unit), UnitPrice.stoneSoldBy(price));
    assertEquals(Optional.empty(), UnitPrice.stoneSoldBy("55"));
  }

  @ParameterizedTest
  @CsvSource({"TRENCH, 40 per t", "STONE, dear", "PIPE, -3 per m", "FABRIC, 2 per m3"})
  void whatIsNoPriceOfTheItemIsSaid(Prices.Item item, String text) {
    assertThrows(IllegalArgumentException.class, () -> UnitPrice.parse(item, text, 0.45));
  }
}
