package org.yardfall.sheet;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.yardfall.Screening;
import org.yardfall.elevation.ElevationSource;
import org.yardfall.layer.Result;
import org.yardfall.runoff.BoundaryFlow;
import org.yardfall.site.SiteReader;
import org.yardfall.site.UnitSystem;

/** The exhibit of the sample's lot 2, to which two neighbours' water runs. */
class EvidencePageTest {

  @Test
  void everyCrossingStandsWithItsNumbersDataMethodAndLimits() throws IOException {
    Result result =
        Screening.of(
                SiteReader.read(
                    Path.of("..", "samples", "fernhill", "site.yml"),
                    Optional.of("2"),
                    ElevationSource.PLANES))
            .surfaceWater();
    String page = EvidencePage.of(result, UnitSystem.METRIC);
    assertFalse(result.flows().isEmpty());
    for (BoundaryFlow flow : result.flows()) {
      assertTrue(page.contains(">" + flow.id() + "<"), flow.id());
      assertTrue(page.contains(UnitSystem.METRIC.flow(flow.peakM3S())), flow.id());
      assertTrue(page.contains(UnitSystem.METRIC.area(flow.areaM2())), flow.id());
    }
    for (String part :
        List.of(
            "data:image/png;base64,",
            "dem.tif",
            "accuracy",
            "NEH 630",
            "parcel 1",
            "not tell",
            "true to a cell and a half",
            "sheet flow",
            "curve numbers for soil group D")) {
      assertTrue(page.contains(part), part);
    }
    // Evidence of what the ground does, and no word on who is to blame; nothing from elsewhere.
    String lower = page.toLowerCase(Locale.ROOT);
    for (String never :
        List.of(
            "at fault",
            "blame",
            "responsib",
            "liable",
            "liability",
            "guilty",
            "illegal",
            "http:",
            "https:")) {
      assertFalse(lower.contains(never), never);
    }
  }
}
