package org.yardfall.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A table of intensities by duration and return period, as copied from a rainfall atlas, through
 * the site file and the packaged command. The numbers of the table are invented.
 */
class StormTableIT {

  private static final ObjectMapper JSON = new ObjectMapper();

  /** In mm/h by return periods of 2, 10 and 25 years. */
  private static final double[][] MM_PER_H = {
    {5, 120, 168, 192},
    {10, 95, 132, 152},
    {15, 78, 110, 126},
    {30, 52, 75, 87},
    {60, 33, 48, 56},
    {120, 20, 29.5, 34},
    {360, 8.6, 12.6, 14.6},
    {720, 4.9, 7.2, 8.3},
    {1440, 2.75, 4, 4.6}
  };

  @TempDir private Path folder;

  @BeforeEach
  void sample() throws IOException {
    Starter.copySample("fernhill", folder);
  }

  @Test
  void theTableInMillimetresIsTheStorm() throws IOException {
    write("mm/h", 1, 0);
    JsonNode results = run("plan", "return-period: 10", "mm");
    JsonNode storm = results.at("/site/storm");
    assertEquals("intensities.csv", storm.get("table").asText());
    assertEquals(10, storm.get("returnPeriodYears").asDouble());
    assertEquals(24 * 0.004, storm.get("depthM").asDouble(), 1e-9);
    assertEquals(86_400, storm.get("durationS").asDouble());
    assertFalse(results.get("warnings").toString().contains("intensity table"));
    peaksAreIntensityTimesArea(results);
  }

  @Test
  void theSameTableInInchesGivesTheSame() throws IOException {
    write("mm/h", 1, 0);
    JsonNode metric = run("water", "return-period: 10 years", "mm");
    write("in/h", 25.4, 0);
    JsonNode inches = run("water", "return-period: 10", "in");
    assertEquals(metric.get("inflow").size(), inches.get("inflow").size());
    for (int i = 0; i < metric.get("inflow").size(); i++) {
      assertEquals(
          metric.at("/inflow/" + i + "/peakM3s").asDouble(),
          inches.at("/inflow/" + i + "/peakM3s").asDouble(),
          1e-6);
    }
  }

  /** The rarer storm brings more water, and above ten years a frequency factor too. */
  @Test
  void theReturnPeriodIsCarriedToEverythingThatIsRead() throws IOException {
    write("mm/h", 1, 0);
    double ten = run("water", "return-period: 10", "a").at("/inflow/0/peakM3s").asDouble();
    double rare = run("water", "return-period: 25", "b").at("/inflow/0/peakM3s").asDouble();
    assertTrue(rare > 1.1 * 1.1 * ten, rare + " after " + ten);
    Starter.Run run = Starter.run(folder, "plan", "site.yml", "--units", "us", "--out", "us");
    assertTrue(
        run.out().replaceAll("\\s+", " ").contains("the 25-year storm of 4.35 in in 24 h"),
        run.out());
    try (PDDocument sheet = Loader.loadPDF(folder.resolve("us/plan.pdf").toFile())) {
      String text = new PDFTextStripper().getText(sheet).replaceAll("\\s+", " ");
      assertTrue(text.contains("the 25-year storm of 4.35 in in 24 h"), "not on the sheet");
    }
    assertTrue(
        Files.readString(folder.resolve("us/review.html"))
            .contains("the 25-year storm of 4.35 in"));
    assertTrue(Files.readString(folder.resolve("us/site.yml")).contains("return-period: 25"));
  }

  @Test
  void outsideTheTableIsWarnedOf() throws IOException {
    write("mm/h", 1, 3); // no line below half an hour
    JsonNode results = run("plan", "return-period: 10", "out");
    assertTrue(
        results.get("warnings").toString().contains("does not reach the time of concentration"),
        results.get("warnings").toString());
    assertTrue(
        results.get("warnings").toString().contains("R1: the times of concentration along it"));
  }

  @Test
  void anotherDurationForTheVolumeIsTakenFromTheTable() throws IOException {
    write("mm/h", 1, 0);
    JsonNode storm = run("water", "return-period: 10, duration: 2 h", "out").at("/site/storm");
    assertEquals(2 * 0.0295, storm.get("depthM").asDouble(), 1e-9);
    assertEquals(7200, storm.get("durationS").asDouble());
    JsonNode again =
        JSON.readTree(
            Starter.run(folder, "water", "out/site.yml", "--json", "--out", "again").out());
    assertEquals(storm, again.at("/site/storm"));
  }

  @Test
  void tablesThatCannotBeUsedAreRefusedInOneLine() throws IOException {
    write("mm/h", 1, 0);
    refused("return-period: 50", "50 years is not in intensities.csv, which has 2 years, 10 years");
    refused("depth: 60 mm", "exclude each other");
    refused("return-period: 0", "must be more than 0");
    Files.writeString(
        folder.resolve("intensities.csv"),
        "duration (mm/h),2,10\n5 min,120,168\n30 min,52,75\n15 min,78,110\n");
    refused("return-period: 10", "sort the lines by rising duration");
    Files.writeString(
        folder.resolve("intensities.csv"), "duration (mm/h),2,10\n5 min,120,168\n15 min,-78,110\n");
    refused("return-period: 10", "rain must be above 0");
  }

  private void write(String unit, double millimetres, int skip) throws IOException {
    StringBuilder text = new StringBuilder("invented,,,\nduration (" + unit + "),2,10,25\n");
    for (double[] line : List.of(MM_PER_H).subList(skip, MM_PER_H.length)) {
      text.append((int) line[0]).append(" min");
      for (int i = 1; i < line.length; i++) {
        text.append(',').append(line[i] / millimetres);
      }
      text.append('\n');
    }
    Files.writeString(folder.resolve("intensities.csv"), text);
  }

  private void storm(String keys) throws IOException {
    String site = Files.readString(Starter.SAMPLES.resolve("fernhill/site.yml"));
    String replaced =
        site.replaceFirst(
            "(?s)storm:\\n.*?\\n\\n", "storm: { table: intensities.csv, " + keys + " }\n\n");
    assertFalse(replaced.equals(site));
    Files.writeString(folder.resolve("site.yml"), replaced);
  }

  private JsonNode run(String command, String keys, String out) throws IOException {
    storm(keys);
    Starter.Run run = Starter.run(folder, command, "site.yml", "--json", "--out", out);
    assertEquals("", run.err());
    assertEquals(Yardfall.DONE, run.exit());
    return JSON.readTree(run.out());
  }

  private void refused(String keys, String words) throws IOException {
    storm(keys);
    Starter.Run run = Starter.run(folder, "plan", "site.yml", "--out", "refused");
    assertEquals(Yardfall.BAD_INPUT, run.exit(), run.err());
    assertEquals(1, run.complaints().size(), run.err());
    assertTrue(run.err().contains(words), run.err());
    assertFalse(Files.exists(folder.resolve("refused")));
  }

  /**
   * Each stretch of the drain, read afresh: what arrives is no more than rain at the table's own
   * intensity for its time of concentration on all its ground, and no less than a tenth of it.
   */
  private static void peaksAreIntensityTimesArea(JsonNode results) {
    for (JsonNode stretch : results.at("/routes/0/design/lines/0/stretches")) {
      double rain = intensityMs(stretch.get("timeS").asDouble()) * stretch.get("areaM2").asDouble();
      double arriving = stretch.get("arrivingM3s").asDouble();
      assertTrue(arriving <= rain * 0.951 && arriving >= rain * 0.1, stretch.toString());
    }
  }

  /** Log-log interpolation of the 10-year column, here in base ten. */
  private static double intensityMs(double seconds) {
    double minutes = seconds / 60;
    int i = 1;
    while (i < MM_PER_H.length - 1 && MM_PER_H[i][0] < minutes) {
      i++;
    }
    double share =
        Math.log10(minutes / MM_PER_H[i - 1][0]) / Math.log10(MM_PER_H[i][0] / MM_PER_H[i - 1][0]);
    double log =
        Math.log10(MM_PER_H[i - 1][2])
            + share * (Math.log10(MM_PER_H[i][2]) - Math.log10(MM_PER_H[i - 1][2]));
    return Math.pow(10, log) / 1000 / 3600;
  }
}
