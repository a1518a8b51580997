package org.yardfall.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.yardfall.Screening;
import org.yardfall.layer.RasterLayers;
import org.yardfall.layer.Result;
import org.yardfall.layer.ResultFolder;
import org.yardfall.sheet.MapPicture;
import org.yardfall.sheet.ReviewPage;
import org.yardfall.sheet.SummaryText;
import org.yardfall.site.Site;
import org.yardfall.site.UnitSystem;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** Surface water only, of a lot or of a whole raster. */
@Command(
    name = "water",
    mixinStandardHelpOptions = true,
    description = "Finds low spots, flow paths, catchments and what crosses the property line.")
final class WaterCommand implements Callable<Integer> {

  @Mixin private SiteOptions site;
  @Mixin private OutputOptions output;

  @Option(
      names = "--rasters",
      description = "Also write fill depth and contributing area as GeoTIFFs.")
  private boolean rasters;

  @Override
  public Integer call() {
    UnitSystem units = output.units();
    output.check();
    String summary;
    try (TerminalProgress progress = TerminalProgress.of(output.quiet())) {
      progress.stage("site");
      Site read = site.read();
      Result result = Screening.of(read).onProgress(progress).surfaceWater();
      progress.stage("layers");
      List<ResultFolder.Part> parts = new ArrayList<>();
      parts.add(folder -> MapPicture.png(result, units, folder.resolve("map.png")));
      if (read.lot().isPresent()) {
        parts.add(folder -> ReviewPage.write(result, units, folder.resolve("review.html")));
      }
      if (rasters) {
        parts.add(folder -> RasterLayers.write(result.water(), result.site().crs(), folder));
      }
      output.write(result, parts.toArray(ResultFolder.Part[]::new));
      summary = SummaryText.ofWater(result, units);
    }
    output.print(summary);
    return Yardfall.DONE;
  }
}
