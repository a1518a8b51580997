package org.yardfall.benchmark;

import java.util.Arrays;
import java.util.List;
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
import org.openjdk.jmh.annotations.Warmup;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.Terrain;
import org.yardfall.site.MadeUpSite;
import org.yardfall.site.Site;
import org.yardfall.water.Filling;
import org.yardfall.water.SurfaceWater;
import org.yardfall.water.SurfaceWaterFinder;

/**
 * The water stage on {@link FractalGround} of 1 to 64 million cells in a heap of 4 GiB, beside
 * sorting the same elevations. {@code core/src/test/scripts/benchmark-fill.sh} runs it and
 * scikit-image's fill of the same ground.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.SingleShotTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 5)
@Measurement(iterations = 5)
@Fork(value = 1, jvmArgsAppend = "-Xmx4g")
public class WaterBenchmark {

  /** Cells a side. */
  @Param({"1000", "2000", "4000", "8000"})
  public int side;

  private ElevationGrid ground;
  private Terrain terrain;
  private Site site;

  /** Makes the ground. */
  @Setup
  public void makeGround() {
    ground = FractalGround.of(side, 1);
    terrain = new Terrain(ground, List.of(), 0.1, true, 0, "", List.of(), List.of());
    site = MadeUpSite.site().make();
  }

  /** Filling alone. */
  @Benchmark
  public float[] fill() {
    return Filling.of(ground);
  }

  /** The whole stage: fill, directions, flats, areas, low spots, paths, catchments. */
  @Benchmark
  public SurfaceWater whole() {
    return SurfaceWaterFinder.find(terrain, site);
  }

  /** What sorting the same elevations takes, on one core. */
  @Benchmark
  public float[] sort() {
    float[] z = ground.z().clone();
    Arrays.sort(z);
    return z;
  }
}
