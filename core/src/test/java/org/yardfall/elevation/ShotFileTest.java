package org.yardfall.elevation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Random;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.yardfall.site.BadInputException;
import org.yardfall.site.WorkingCrs;

/** Point files in the dialects in which they are exchanged; all places are invented. */
class ShotFileTest {

  /** A lot at easting 500 000, northing 4 980 000. */
  private static final Geometry LOT =
      new GeometryFactory().toGeometry(new Envelope(500_000, 500_040, 4_980_000, 4_980_030));

  private static final String FIVE =
      """
      1,4980001.50,500002.25,241.10,GND
      2,4980028.00,500004.00,241.45,GND
      3,4980015.25,500020.75,240.90,EP1
      4,4980003.00,500036.50,240.60,EP1
      5,4980027.75,500038.25,240.85,CB "rim", north
      """;

  @TempDir Path folder;

  private Path file(String name, String text, Charset charset) {
    try {
      return Files.write(folder.resolve(name), text.getBytes(charset));
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  private Shots read(String text, String columns) {
    return ShotFile.read(
        file("shots.csv", text, StandardCharsets.UTF_8), columns, ShotUnits.METRES, LOT);
  }

  private static void checkFive(Shots shots) {
    assertEquals(
        "1 500002.25 4980001.50 241.10|2 500004.00 4980028.00 241.45|3 500020.75 4980015.25 240.90"
            + "|4 500036.50 4980003.00 240.60|5 500038.25 4980027.75 240.85",
        shots.shots().stream()
            .map(
                s ->
                    String.format(
                        java.util.Locale.ROOT, "%s %.2f %.2f %.2f", s.id(), s.x(), s.y(), s.z()))
            .collect(Collectors.joining("|")));
  }

  private void checkRefused(String text, String columns, String... words) {
    BadInputException refusal =
        assertThrows(BadInputException.class, () -> read(text, columns).shots());
    assertEquals(1, refusal.problems().size());
    for (String word : words) {
      assertTrue(refusal.getMessage().contains(word), refusal.getMessage());
    }
  }

  private static void checkWarned(Shots shots, String... words) {
    assertTrue(
        shots.warnings().stream()
            .anyMatch(line -> List.of(words).stream().allMatch(line::contains)),
        shots.warnings().toString());
  }

  @Test
  void anOrderThatIsStatedIsTaken() {
    Shots shots = read(FIVE, "PNEZD");
    checkFive(shots);
    assertEquals("CB \"rim\" north", shots.shots().get(4).code());
  }

  @Test
  void northingFirstIsRecognisedAgainstTheLotAndSaid() {
    Shots shots = read(FIVE, null);
    checkFive(shots);
    assertTrue(
        shots.assumptions().stream().anyMatch(a -> a.value().equals("PNEZD")),
        shots.assumptions().toString());
  }

  @Test
  void eastingFirstIsRecognisedAgainstTheLot() {
    checkFive(read(FIVE.replaceAll("(?m)^(\\d),([^,]+),([^,]+),", "$1,$3,$2,"), null));
  }

  @Test
  void aHeaderNamesTheColumns() {
    checkFive(
        read(
            """
            Point No.;Elev. (m);Description;Easting [m];Northing [m]
            1;241.10;GND;500002.25;4980001.50
            2;241.45;GND;500004.00;4980028.00
            3;240.90;EP1;500020.75;4980015.25
            4;240.60;EP1;500036.50;4980003.00
            5;240.85;CB;500038.25;4980027.75
            """,
            null));
  }

  @Test
  void fiveDialectsAreTheSameShots() {
    String tabs = FIVE.replace(',', '\t');
    String blanks = FIVE.replace(",", "   ").replace("\n", "\r\n");
    String decimalCommas = FIVE.replace(',', ';').replace('.', ',');
    String quoted =
        "# a comment, with commas\n! 1,2,3,4\n"
            + FIVE.replaceAll(
                "(?m)^(\\d),([^,]+),([^,]+),([^,]+),.*$", "\"$1\",\"$2\",\"$3\",\"$4\"");
    for (String text : List.of(FIVE, tabs, blanks, decimalCommas, quoted)) {
      checkFive(read(text, null));
    }
  }

  @Test
  void anEncodingIsToldFromTheFirstBytes() {
    String text = "\uFEFF" + FIVE.replace("GND", "Böschung");
    for (Charset charset :
        List.of(StandardCharsets.UTF_8, StandardCharsets.UTF_16LE, StandardCharsets.UTF_16BE)) {
      Shots shots = ShotFile.read(file("marked.csv", text, charset), null, ShotUnits.METRES, LOT);
      checkFive(shots);
      assertEquals("Böschung", shots.shots().get(0).code());
    }
    Shots windows =
        ShotFile.read(
            file("western.csv", text.substring(1), Charset.forName("windows-1252")),
            null,
            ShotUnits.METRES,
            LOT);
    assertEquals("Böschung", windows.shots().get(0).code());
  }

  @Test
  void bothFeetAreKeptApart() {
    // NIST SP 811 (2008), B.6: 1 ft = 0.3048 m; 1 US survey ft = 1200/3937 m.
    Path file =
        file(
            "feet.csv",
            "1,1640416.667,820208.333,3937,GND\n2,1640426,820218,3937,X\n",
            StandardCharsets.UTF_8);
    Shot us =
        ShotFile.read(file, "PENZD", ShotUnits.stated(WorkingCrs.US_SURVEY_FOOT_M), null)
            .shots()
            .get(0);
    Shot international =
        ShotFile.read(file, "PENZD", ShotUnits.stated(WorkingCrs.INTERNATIONAL_FOOT_M), null)
            .shots()
            .get(0);
    assertEquals(1200.0, us.z(), 1e-9);
    assertEquals(1199.9976, international.z(), 1e-9);
    assertEquals(500_000.0001, us.x(), 1e-3);
    assertEquals(499_999.0001, international.x(), 1e-3);
  }

  @Test
  void aWrongOrderIsRefusedWithTheRightOne() {
    checkRefused(FIVE, "PENZD", "swapped", "PNEZD");
  }

  @Test
  void anOrderThatCannotBeToldIsAskedFor() {
    Path file = file("unplaced.csv", FIVE, StandardCharsets.UTF_8);
    BadInputException refusal =
        assertThrows(
            BadInputException.class, () -> ShotFile.read(file, null, ShotUnits.METRES, null));
    assertTrue(refusal.getMessage().contains("elevation.columns: PNEZD or PENZD"));
  }

  @Test
  void feetOnAMetreLotAreNamed() {
    String feet = "1,16338587,1640427,791\n2,16338667,1640433,792\n3,16338633,1640488,790\n";
    checkRefused(feet, null, "nowhere near the lot", "international foot");
  }

  @Test
  void aSwappedShotIsNamedAndLeftOut() {
    Shots shots = read(FIVE + "6,500010.00,4980010.00,241.00,GND\n", "PNEZD");
    assertEquals(5, shots.shots().size());
    checkWarned(shots, "swapped", ": 6");
  }

  @Test
  void feetAmongMetresAreNamed() {
    String twelve = FIVE + FIVE.replaceAll("(?m)^(\\d),49800(\\d)", "1$1,49801$2");
    Shots places = read(twelve + "7,16338615.49,1640452.76,791.2,GND\n", "PNEZD");
    checkWarned(places, "feet among metres", "places", ": 7");
    Shots heights = read(twelve + "8,4980010.00,500012.00,791.2,GND\n", "PNEZD");
    checkWarned(heights, "feet among metres", "elevations", ": 8");
    assertEquals(10, heights.shots().size());
  }

  @Test
  void aFileHalfInFeetIsRefusedByItsPoints() {
    // The same five again 30 m to the north, in international feet: 3.2808 of them are a metre.
    String feet =
        """
        11,16338686.02,1640427.00,791.01,GND
        12,16338772.97,1640432.74,792.16,GND
        13,16338731.14,1640487.70,790.35,EP1
        14,16338690.94,1640539.37,789.37,EP1
        """;
    checkRefused(FIVE + feet, "PNEZD", "partly in feet, partly in metres", "11, 12, 13, 14");
    String heights = FIVE + FIVE.replaceAll("(?m)^(\\d),(.*),24(\\d)\\.", "2$1,$2,79$3.");
    checkRefused(heights, "PNEZD", "elevations are partly in feet");
  }

  @Test
  void missingElevationsAreLeftOutByNumber() {
    Shots shots =
        read(
            FIVE + "8,4980010,500010,-9999,GND\n9,4980011,500010,0,GND\n10,4980012,500010,,GND\n",
            "PNEZD");
    checkFive(shots);
    checkWarned(shots, "want of an elevation", "8, 10");
    checkWarned(shots, "elevation 0", ": 9");
  }

  @Test
  void zerosNearOthersAreElevations() {
    Shots shots =
        read("1,4980001,500002,0,A\n2,4980002,500009,0.4,A\n3,4980009,500003,-0.3,A\n", "PNEZD");
    assertEquals(3, shots.shots().size());
  }

  @Test
  void doublesAreSaid() {
    Shots shots =
        read(
            FIVE + "3,4980015.25,500020.75,240.90,EP1\n4,4980004.00,500031.50,240.61,GND\n",
            "PNEZD");
    assertEquals(6, shots.shots().size());
    checkWarned(shots, "given twice alike", ": 3");
    checkWarned(shots, "more than one place", ": 4");
  }

  @Test
  void linesThatAreNoShotsAreSaidByNumber() {
    checkWarned(read(FIVE + "end of file, checked\n", "PNEZD"), "line 6");
  }

  @Test
  void aFileWithoutHeightsIsRefused() {
    checkRefused("id,xcoord,ycoord\n1,500002.25,4980001.50\n", null, "header");
  }

  @Test
  void allZerosAreRefused() {
    checkRefused("1,4980001,500002,0\n2,4980002,500009,0\n", "PNEZ", "every elevation in it is 0");
  }

  @Test
  void anUnknownColumnLetterIsRefused() {
    checkRefused(FIVE, "PNEQ", "'Q'");
  }

  @Test
  void fiftyMegabytesOfGarbageAreRefusedAtOnce() throws IOException {
    byte[] noise = new byte[50 << 20];
    new Random(7).nextBytes(noise);
    Path binary = Files.write(folder.resolve("noise.csv"), noise);
    for (int i = 0; i < noise.length; i++) {
      noise[i] = (byte) ('a' + (noise[i] & 0x0F));
    }
    Path letters = Files.write(folder.resolve("letters.csv"), noise);
    for (Path file : List.of(binary, letters)) {
      BadInputException refusal =
          Assertions.assertTimeout(
              Duration.ofSeconds(20),
              () ->
                  assertThrows(
                      BadInputException.class,
                      () -> ShotFile.read(file, null, ShotUnits.METRES, LOT)));
      assertEquals(1, refusal.getMessage().lines().count());
    }
  }

  @Test
  void anEmptyFileIsRefused() {
    checkRefused("", null, "empty");
  }
}
