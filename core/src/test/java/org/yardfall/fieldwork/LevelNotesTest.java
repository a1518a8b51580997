package org.yardfall.fieldwork;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Collectors;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.yardfall.site.BadInputException;
import org.yardfall.site.WorkingCrs;

/** Level notes against published examples. */
class LevelNotesTest {

  private static final double FT = WorkingCrs.INTERNATIONAL_FOOT_M;
  private static final LevelTolerance THIRD = LevelTolerance.THIRD_ORDER_SETUPS;

  @TempDir Path folder;

  /** Ghilani and Wolf, Elementary Surveying, theory of differential levelling: BM Rock. */
  @Test
  void oneSetUpFromARockBenchmark() {
    LevelNotes notes = notes("point,BS,IS,FS,known\nBM Rock,8.42,,,820.00\nX,,,1.20,\n", FT);
    checkElevations(notes, "820.00 827.22");
    assertEquals("828.42", notes.points().get(0).hi().toPlainString());
  }

  /** A published exercise on field notes (author not known), its answers re-reckoned by hand. */
  @Test
  void aLineOfFourSetUpsClosesOnAKnownBenchmark() {
    LevelNotes notes =
        notes(
            """
            Station,BS (+),HI,FS (-),Elev,Known
            BM A,3.10,103.10,,100.00,
            TP1,6.44,99.72,9.82,93.28,
            TP2,8.76,101.52,6.96,92.76,
            TP3,7.12,105.37,3.27,98.25,
            BM B,,,10.42,94.95,94.91
            """,
            FT);
    checkElevations(notes, "100.00 93.28 92.76 98.25 94.95");
    assertEquals(
        "103.10 99.72 101.52 105.37",
        notes.points().stream()
            .filter(p -> p.hi() != null)
            .map(p -> p.hi().toPlainString())
            .collect(Collectors.joining(" ")));
    assertEquals("25.42", notes.sumBack().toPlainString());
    assertEquals("30.47", notes.sumFore().toPlainString());
    assertEquals("-5.05", notes.rise().toPlainString());
    assertEquals(0, notes.arithmeticError().signum());
    assertEquals("0.04", notes.closure().orElseThrow().misclosure().toPlainString());
    checkAdjusted(notes, "100.00 93.27 92.74 98.22 94.91", 2);
    assertEquals(List.of(), notes.warnings());
  }

  /** Ghilani and Wolf, Elementary Surveying, a problem of differential levelling: BM Tree. */
  @Test
  void aLoopComesBackToItsTreeAndIsSharedOutBySetUps() {
    LevelNotes notes = notes(LOOP, FT);
    checkElevations(notes, "814.08 813.10 813.09 816.08 814.16");
    LevelNotes.Closure closure = notes.closure().orElseThrow();
    assertEquals("0.08", closure.misclosure().toPlainString());
    assertEquals("24.80", notes.sumBack().toPlainString());
    assertEquals("24.72", notes.sumFore().toPlainString());
    checkAdjusted(notes, "814.08 813.08 813.05 816.02 814.08", 2);
    // 5 mm x sqrt(4) is 10 mm; 0.08 ft is 24 mm.
    assertEquals(0.010, closure.allowedM(), 1e-12);
    assertFalse(closure.within());
    assertFalse(notes.passed());
    assertEquals(
        List.of(
            "Backsights 24.80 less foresights 24.72 is 0.08; last elevation less first is 0.08:"
                + " the arithmetic checks.",
            "Closes on BM Tree 0.08 ft off (0.03 ft allowed): OUT OF TOLERANCE, level it again;"
                + " shared out by set-ups."),
        notes.sentences());
  }

  private static final String LOOP =
      """
      point,BS,IS,FS,known
      BM Tree,6.78,,,814.08
      TP1,5.04,,7.76,
      TP2,5.63,,5.05,
      TP3,7.35,,2.64,
      BM Tree,,,9.27,
      """;

  /**
   * La Putt, Elementary Surveying, adjustment by distance: elevations observed at 5.245, 11.271,
   * 17.718, 21.964 and 25.247 km of a 30.500 km line from 728.730 m that comes in at 728.486 m. The
   * readings are invented so that they give the observed elevations.
   */
  @Test
  void aLongCircuitIsSharedOutByDistance() {
    LevelNotes notes =
        notes(
            """
            point;BS (m);FS (m);known;distance (km)
            BM1;90,000;;728,730;0
            A;150,000;35,517;;5,245
            B;10,000;41,449;;11,271
            C;10,000;58,569;;17,718
            D;10,000;113,487;;21,964
            E;90,000;46,752;;25,247
            BM1;;64,470;;30,500
            """,
            1);
    checkElevations(notes, "728.730 783.213 891.764 843.195 739.708 702.956 728.486");
    assertEquals("-0.244", notes.closure().orElseThrow().misclosure().toPlainString());
    assertEquals(LevelTolerance.By.DISTANCE, notes.closure().orElseThrow().by());
    checkAdjusted(notes, "728.730 783.255 891.854 843.337 739.884 703.158 728.730", 3);
  }

  /** Catch basin: 2156.77 + 2.67 − 6.72 (a published exercise, author not known). */
  @Test
  void aCatchBasinIsLevelledFromABenchmark() {
    checkElevations(
        notes("point,BS,FS,known\nBM,2.67,,2156.77\nCatch basin,,6.72,\n", FT), "2156.77 2152.72");
  }

  /** FGCC 1984: 12 mm x sqrt(km); the US form 0.05 ft x sqrt(miles) is the same to 0.1 %. */
  @Test
  void thirdOrderAllowsTwelveMillimetresOnAKilometre() {
    assertEquals(0.012, LevelTolerance.THIRD_ORDER.allowedM(7, 1000), 1e-12);
    assertEquals(0.024, LevelTolerance.THIRD_ORDER.allowedM(7, 4000), 1e-12);
    assertEquals(0.05 * FT, LevelTolerance.THIRD_ORDER.allowedM(1, 1609.344), 0.05 * FT * 0.002);
  }

  @Test
  void anIntermediateSightTakesTheShareOfItsSetUp() {
    LevelNotes notes =
        notes(
            """
            point,BS,IS,FS,known
            BM,1.000,,,10.000
            a,,0.500,,
            TP,1.000,,1.000,
            b,,0.250,,
            BM,,,0.980,
            """,
            1);
    checkElevations(notes, "10.000 10.500 10.000 10.750 10.020");
    checkAdjusted(notes, "10.000 10.490 9.990 10.730 10.000", 3);
  }

  @Test
  void feetOfBothKindsKeepTheirLastDigit() {
    String text = "point,BS (%s),FS (%s),known\nBM,4.20,,5280.00\nX,,6.50,\n";
    LevelNotes survey = notes(text.replace("%s", "ftUS"), Double.NaN);
    LevelNotes international = notes(text.replace("%s", "ft"), Double.NaN);
    BigDecimal z = survey.points().get(1).elevation();
    assertEquals("5277.70", z.toPlainString());
    assertEquals(5277.70 * 1200 / 3937, survey.metres(z), 1e-9);
    assertEquals(5277.70 * 0.3048, international.metres(z), 1e-9);
    assertEquals(
        "5277.70", FieldUnits.FEET.inFeetOf(WorkingCrs.US_SURVEY_FOOT_M).length(survey.metres(z)));
    assertEquals("5277.71", FieldUnits.FEET.length(survey.metres(z)));
  }

  @Test
  void aFigureReckonedWronglyInTheBookIsNamedAndFailsTheCheck() {
    LevelNotes notes = notes("point,BS,HI,FS,elev\nBM,3.10,103.10,,100.00\nX,,,9.82,93.38\n", FT);
    assertEquals("-0.10", notes.arithmeticError().toPlainString());
    assertFalse(notes.passed());
    assertTrue(
        notes
            .warnings()
            .contains("line 3 (X): the booked elevation is 93.38, the readings give 93.28"));
  }

  @Test
  void notesThatCannotBeReducedSayWhy() {
    checkRefused("", "is empty");
    checkRefused("a,b\n1,2\n", "no header line with BS and FS");
    checkRefused("point,BS,FS,known\n", "no lines below its header");
    checkRefused("point,BS,FS,known\nBM,1.0,,\nX,,1.0,\n", "starts on no known elevation");
    checkRefused("point,BS,FS,known\nBM,1.0,,10\n", "one point only");
    checkRefused("point,BS,FS,known\nBM,1.0,,10\nX,2.0,,\n", "backsight but no foresight");
    checkRefused("point,BS,FS,known\nBM,1.0,,10\nX,,,\nY,,1,\n", "has no reading");
    checkRefused(
        "point,BS,FS,known\nBM,1.0,,10\nX,,1.0,\nY,,1.0,\n", "line 4 (Y) is sighted after");
    checkRefused("point,BS,FS,known\nBM,1.0,,10\nX,,lots,\n", "line 3: 'lots' is no reading");
    checkRefused("point,BS (cubit),FS,known\nBM,1.0,,10\n", "unit 'cubit'");
    checkRefused("point,BS,BS,FS,known\nBM,1.0,,,10\n", "two columns");
  }

  @Test
  void notesWithoutAUnitOrInAnotherEncodingAreRefused() throws IOException {
    assertTrue(
        assertThrows(BadInputException.class, () -> notes(LOOP, Double.NaN))
            .getMessage()
            .contains("does not say its unit"));
    Path file = folder.resolve("latin.csv");
    Files.write(file, "point,BS,FS\nB\u00e9,1,2".getBytes(StandardCharsets.ISO_8859_1));
    assertTrue(
        assertThrows(BadInputException.class, () -> LevelNotes.read(file, 1, THIRD))
            .getMessage()
            .contains("UTF-8"));
  }

  @Test
  void aByteOrderMarkAndTabsAreReadAsWell() {
    checkElevations(
        notes("\uFEFFpoint\tBS\tFS\tknown\nBM\t8.42\t\t820.00\nX\t\t1.20\t\n", FT),
        "820.00 827.22");
  }

  /** The page check holds for any readings, and a loop's adjusted end is its start. */
  @Property(tries = 200, seed = "20261125")
  void sumsAndRiseAgreeAndALoopClosesOnItself(@ForAll("readings") List<Integer> millimetres) {
    int setups = millimetres.size() / 2;
    List<LevelRow> rows = new java.util.ArrayList<>();
    for (int i = 0; i <= setups; i++) {
      rows.add(
          new LevelRow(
              i + 2,
              i == setups ? "P0" : "P" + i,
              i < setups ? BigDecimal.valueOf(millimetres.get(2 * i), 3) : null,
              null,
              i > 0 ? BigDecimal.valueOf(millimetres.get(2 * i - 1), 3) : null,
              null,
              null,
              i == 0 ? new BigDecimal("100.000") : null,
              null));
    }
    LevelNotes notes = LevelReduction.reduce("made", rows, 1, THIRD);
    int sum = 0;
    for (int i = 0; i < 2 * setups; i++) {
      sum += i % 2 == 0 ? millimetres.get(i) : -millimetres.get(i);
    }
    assertEquals(0, notes.arithmeticError().signum());
    assertEquals(sum, notes.rise().movePointRight(3).intValueExact());
    LevelPoint end = notes.points().get(setups);
    assertEquals(0, end.adjusted().compareTo(new BigDecimal("100")));
  }

  @Provide
  Arbitrary<List<Integer>> readings() {
    return Arbitraries.integers().between(0, 4000).list().ofMinSize(2).ofMaxSize(40);
  }

  private void checkRefused(String text, String expected) {
    String message = assertThrows(BadInputException.class, () -> notes(text, 1)).getMessage();
    assertTrue(message.contains(expected), message);
    assertEquals(1, message.lines().count());
  }

  private static void checkElevations(LevelNotes notes, String expected) {
    assertEquals(
        expected,
        notes.points().stream()
            .map(p -> p.elevation().toPlainString())
            .collect(Collectors.joining(" ")));
  }

  private static void checkAdjusted(LevelNotes notes, String expected, int places) {
    assertEquals(
        expected,
        notes.points().stream()
            .map(p -> p.adjusted().setScale(places, java.math.RoundingMode.HALF_UP))
            .map(BigDecimal::toPlainString)
            .collect(Collectors.joining(" ")));
  }

  private LevelNotes notes(String text, double unitM) {
    try {
      Path file = folder.resolve("notes.csv");
      Files.writeString(file, text);
      return LevelNotes.read(file, unitM, THIRD);
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }
}
