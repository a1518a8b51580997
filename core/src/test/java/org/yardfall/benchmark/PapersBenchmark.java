package org.yardfall.benchmark;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.openjdk.jmh.runner.Runner;
import org.openjdk.jmh.runner.RunnerException;
import org.openjdk.jmh.runner.options.OptionsBuilder;
import org.yardfall.Screening;
import org.yardfall.elevation.ElevationSource;
import org.yardfall.layer.Result;
import org.yardfall.sheet.MapPicture;
import org.yardfall.sheet.PlanSheet;
import org.yardfall.sheet.ReviewPage;
import org.yardfall.sheet.SheetSize;
import org.yardfall.site.SiteReader;
import org.yardfall.site.UnitSystem;

/** How long each paper of the sample takes after the plan, cold: once in a new virtual machine. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.SingleShotTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(3)
@Warmup(iterations = 0)
@Measurement(iterations = 1)
public class PapersBenchmark {

  private Result result;
  private Path folder;

  /** Plans the sample; run from the folder {@code core}. */
  @Setup
  public void plan() throws IOException {
    result =
        Screening.of(
                SiteReader.read(
                    Path.of("..", "samples", "fernhill", "site.yml"), ElevationSource.PLANES))
            .run();
    folder = Files.createTempDirectory("papers");
  }

  /** The plan sheet with its profiles and tables. */
  @Benchmark
  public void planSheet() throws IOException {
    PlanSheet.write(result, UnitSystem.METRIC, SheetSize.TABLOID, folder.resolve("plan.pdf"));
  }

  /** The review page. */
  @Benchmark
  public void reviewPage() throws IOException {
    ReviewPage.write(result, UnitSystem.METRIC, folder.resolve("review.html"));
  }

  /** The picture of the plan. */
  @Benchmark
  public void mapPicture() throws IOException {
    MapPicture.png(result, UnitSystem.METRIC, folder.resolve("map.png"));
  }

  /** Runs it. */
  public static void main(String[] args) throws RunnerException {
    new Runner(new OptionsBuilder().include("PapersBenchmark").build()).run();
  }
}
