package org.yardfall.layer;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.InterruptedIOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.yardfall.site.BadInputException;
import org.yardfall.site.SiteWriter;
import org.yardfall.site.UnitSystem;
import org.yardfall.site.WorkingCrs;

/**
 * Writes the folder of a result. All files appear together or not at all; the folder of an earlier
 * run is replaced as a whole; a folder that holds anything else is left alone.
 */
public final class ResultFolder {

  /** The file by which the folder of an earlier run is known. */
  private static final String RESULTS = "results.json";

  private static final String LAYERS = "layers";

  /** What a run, or the later work on its plan, may have left in its folder. */
  private static final Pattern OURS =
      Pattern.compile(
          "results\\.json|site\\.yml|site\\.kml|site\\.gpkg(-wal|-shm|-journal)?|take-off\\.csv"
              + "|review\\.html|evidence\\.html|plan\\.pdf|map\\.png|recheck\\.txt"
              + "|(profile|cut-sheet|level-notes|as-built)-[^/]*\\.(svg|png|csv|json|pdf|txt|html)"
              + "|shot-list\\.(csv|geojson|gpx)");

  private static final Pattern OURS_IN_LAYERS =
      Pattern.compile(
          "(contours|overland|altered|levelled|daylight|low_spots|flow_paths|catchments|inflow|standing|reach|reach_lines|drains|stations|outlets|lot"
              + "|obstacles)\\.(geojson|shp|shx|dbf|prj|cpg|sld|qix|sbn|sbx)");

  private static final Pattern OURS_IN_RASTERS =
      Pattern.compile(
          "(fill_depth|contributing_area|reach_invert|reach_room)\\.tif(\\.aux\\.xml)?");

  private ResultFolder() {}

  /** A file, or several, of a result's folder. */
  public interface Part {

    /** Writes into the folder, which exists and is not yet in its place. */
    void writeInto(Path folder) throws IOException;
  }

  /**
   * Writes everything of a result that this package can write, and what is given besides.
   *
   * @param result the result
   * @param units in which tables for people are written; the data stays in SI
   * @param folder where to; made if it is not there
   * @param more further parts of the folder; all parts are written side by side, these first
   * @return what was odd in the writing, in words; it stands in {@code results.json} too
   * @throws BadInputException if the folder holds what no run of this program wrote, or cannot be
   *     written to; nothing is changed then
   */
  public static List<String> write(Result result, UnitSystem units, Path folder, List<Part> more) {
    checkReplaceable(folder);
    LayerSet layers = LayerSet.of(result);
    List<String> warnings = layers.warnings();
    try (FolderSwap swap = new FolderSwap(folder)) {
      Path fresh = swap.fresh();
      Files.createDirectory(fresh.resolve(LAYERS));
      List<Part> parts = new ArrayList<>(more);
      parts.add(to -> writeResults(result, warnings, to.resolve(RESULTS)));
      parts.addAll(layers(result, layers));
      parts.add(
          to -> Files.writeString(to.resolve("site.yml"), SiteWriter.write(result.site(), folder)));
      parts.add(to -> TakeOffCsv.write(result.designs(), units, to.resolve("take-off.csv")));
      writeSideBySide(parts, fresh);
      swap.commit();
    } catch (UncheckedIOException e) {
      throw notWritable(folder, e.getCause());
    } catch (IOException e) {
      throw notWritable(folder, e);
    }
    return warnings;
  }

  private static void writeResults(Result result, List<String> warnings, Path file)
      throws IOException {
    try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(file))) {
      ResultsWriter.write(result, warnings, out);
    }
  }

  private static List<Part> layers(Result result, LayerSet layers) {
    WorkingCrs crs = result.site().crs();
    return List.of(
        to -> new GeoPackageWriter(crs).write(layers, to.resolve("site.gpkg")),
        to -> new KmlWriter(crs).write(result.site().name(), layers, to.resolve("site.kml")),
        to -> {
          GeoJsonLayerWriter geoJson = new GeoJsonLayerWriter(crs);
          for (Layer layer : layers.layers()) {
            geoJson.write(layer, to.resolve(LAYERS).resolve(layer.name() + ".geojson"));
          }
        },
        to -> {
          ShapefileLayerWriter shapefile = new ShapefileLayerWriter(crs);
          for (Layer layer : layers.layers()) {
            shapefile.write(layer, to.resolve(LAYERS));
            Files.writeString(
                to.resolve(LAYERS).resolve(layer.name() + ".sld"), SldWriter.write(layer));
          }
        });
  }

  /**
   * Writes parts on all cores; every one has come to its end when this returns, so that none writes
   * into a folder that is being cleared away. Of several faults the first part's is told.
   */
  private static void writeSideBySide(List<Part> parts, Path folder) throws IOException {
    ExecutorService cores =
        Executors.newFixedThreadPool(Runtime.getRuntime().availableProcessors());
    try {
      List<Callable<Void>> tasks = new ArrayList<>();
      for (Part part : parts) {
        tasks.add(
            () -> {
              part.writeInto(folder);
              return null;
            });
      }
      for (Future<Void> done : cores.invokeAll(tasks)) {
        outcome(done);
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new InterruptedIOException("interrupted");
    } finally {
      cores.shutdownNow();
    }
  }

  /**
   * What work on another thread came to, waited for; its own faults are thrown as they were.
   *
   * @throws IOException if the work could not read or write, or the wait was interrupted
   */
  public static <T> T outcome(Future<T> work) throws IOException {
    try {
      return work.get();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new InterruptedIOException("interrupted");
    } catch (ExecutionException e) {
      if (e.getCause() instanceof IOException fault) {
        throw fault;
      }
      if (e.getCause() instanceof RuntimeException fault) {
        throw fault;
      }
      throw new IllegalStateException(e.getCause());
    }
  }

  /**
   * Loads what writing a folder needs beyond this program's own classes, and writes nothing: a
   * program may do this beside its other work.
   *
   * @throws IOException if the database library cannot be loaded
   */
  public static void prepare() throws IOException {
    GeoPackageWriter.loadLibrary();
  }

  /**
   * Checks, before any work, that a folder could be written.
   *
   * @throws BadInputException if it is a file or holds what no run of this program wrote
   */
  public static void checkReplaceable(Path folder) {
    if (!Files.exists(folder)) {
      return;
    }
    if (!Files.isDirectory(folder)) {
      throw new BadInputException(
          folder.toString(), "is a file, not a folder", "give another folder");
    }
    try {
      Optional<Path> foreign = foreign(folder);
      if (foreign.isPresent()) {
        throw new BadInputException(
            folder.toString(),
            "holds " + foreign.get().getFileName() + ", which no run of this program wrote",
            "give an empty or new folder");
      }
    } catch (IOException e) {
      throw notWritable(folder, e);
    }
  }

  private static Optional<Path> foreign(Path folder) throws IOException {
    List<Path> entries = entries(folder);
    if (!entries.isEmpty() && !Files.isRegularFile(folder.resolve(RESULTS))) {
      return Optional.of(entries.get(0));
    }
    for (Path entry : entries) {
      boolean directory = Files.isDirectory(entry);
      Optional<Path> foreign =
          switch (entry.getFileName().toString()) {
            case LAYERS -> directory ? firstNot(OURS_IN_LAYERS, entry) : Optional.of(entry);
            case "rasters" -> directory ? firstNot(OURS_IN_RASTERS, entry) : Optional.of(entry);
            default ->
                !directory && isOurs(OURS, entry) ? Optional.<Path>empty() : Optional.of(entry);
          };
      if (foreign.isPresent()) {
        return foreign;
      }
    }
    return Optional.empty();
  }

  private static Optional<Path> firstNot(Pattern ours, Path folder) throws IOException {
    return entries(folder).stream().filter(entry -> !isOurs(ours, entry)).findFirst();
  }

  private static boolean isOurs(Pattern ours, Path entry) {
    return ours.matcher(entry.getFileName().toString()).matches();
  }

  private static List<Path> entries(Path folder) throws IOException {
    try (Stream<Path> entries = Files.list(folder)) {
      return entries.sorted().toList();
    }
  }

  private static BadInputException notWritable(Path folder, IOException e) {
    String why = e.getMessage();
    if (e instanceof FileSystemException named) {
      why =
          named.getReason() != null
              ? named.getReason()
              : e instanceof AccessDeniedException ? "permission denied" : "no such folder";
    }
    return new BadInputException(
        folder.toString(),
        "cannot be written (" + why + ")",
        "make room or give a folder that can be written to");
  }
}
