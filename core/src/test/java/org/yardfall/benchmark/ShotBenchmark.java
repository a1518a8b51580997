package org.yardfall.benchmark;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.TearDown;
import org.openjdk.jmh.annotations.Warmup;
import org.openjdk.jmh.runner.Runner;
import org.openjdk.jmh.runner.RunnerException;
import org.openjdk.jmh.runner.options.OptionsBuilder;
import org.yardfall.elevation.ElevationSource;
import org.yardfall.elevation.Terrain;
import org.yardfall.site.CrsLookup;
import org.yardfall.site.ElevationInput;
import org.yardfall.site.ShotInput;
import org.yardfall.site.WorkingCrs;

/**
 * Time from a text file of shots to gridded ground; the first, cold one is what a user waits for.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.SingleShotTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(1)
@Warmup(iterations = 1)
@Measurement(iterations = 3)
public class ShotBenchmark {

  private static final WorkingCrs CRS = CrsLookup.of("EPSG:26915");

  @Param({"10000", "100000"})
  private int shots;

  private Path file;

  /** Writes shots on rolling ground, one every two metres. */
  @Setup
  public void write() throws IOException {
    Random random = new Random(1);
    double side = 2 * Math.sqrt(shots);
    StringBuilder text = new StringBuilder();
    for (int i = 1; i <= shots; i++) {
      double x = side * random.nextDouble();
      double y = side * random.nextDouble();
      double z = 240 + Math.sin(x / 20) + Math.cos(y / 30);
      text.append(
          String.format(Locale.ROOT, "%d,%.3f,%.3f,%.3f,GND%n", i, 4_980_000 + y, 500_000 + x, z));
    }
    file = Files.writeString(Files.createTempFile("shots", ".csv"), text);
  }

  /** Removes them. */
  @TearDown
  public void delete() throws IOException {
    Files.delete(file);
  }

  /** Read, sieved, triangulated, gridded. */
  @Benchmark
  public Terrain ground() {
    ElevationSource source =
        ElevationSource.open(
            new ElevationInput(
                List.of(),
                file,
                "PNEZD",
                OptionalDouble.empty(),
                "",
                OptionalDouble.empty(),
                null,
                ShotInput.NONE,
                ""),
            CRS);
    return source.read(source.extentM());
  }

  /** Runs it. */
  public static void main(String[] args) throws RunnerException {
    new Runner(new OptionsBuilder().include(ShotBenchmark.class.getSimpleName()).build()).run();
  }
}
