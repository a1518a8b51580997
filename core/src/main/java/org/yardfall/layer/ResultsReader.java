package org.yardfall.layer;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.function.Function;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.fieldwork.LaidPipe;
import org.yardfall.pipe.Pipe;
import org.yardfall.route.Audit;
import org.yardfall.route.Bore;
import org.yardfall.route.DrainKind;
import org.yardfall.route.DrainLine;
import org.yardfall.route.Route;
import org.yardfall.route.SlabPipes;
import org.yardfall.route.Station;
import org.yardfall.site.BadInputException;
import org.yardfall.site.DrainLimits;
import org.yardfall.site.Outlet;

/**
 * Reads back from {@code results.json} what later work on a finished plan needs: the routes with
 * their stations, the limits, the outlets.
 */
public final class ResultsReader {

  private static final String FILE = "results.json";

  private final Path file;
  private final double metresPerUnit;

  private ResultsReader(Path file, double metresPerUnit) {
    this.file = file;
    this.metresPerUnit = metresPerUnit;
  }

  /**
   * A plan as its file gives it; coordinates are metres of the working plane again.
   *
   * @param siteName the site's name; text from outside
   * @param crsName the working CRS's name
   * @param metresPerUnit metres per unit of the working CRS
   * @param limits the limits in force
   * @param frostDepthM depth in metres to which the ground freezes, where known
   * @param outlets the outlets
   * @param routes the proposed routes by rank
   * @param pipes by route's id, the pipes of its lines, main line first; empty where the route was
   *     not made buildable
   */
  public record Plan(
      String siteName,
      String crsName,
      double metresPerUnit,
      DrainLimits limits,
      OptionalDouble frostDepthM,
      List<Outlet> outlets,
      List<Route> routes,
      Map<String, List<List<LaidPipe>>> pipes) {

    /** Keeps the lists to itself. */
    public Plan {
      outlets = List.copyOf(outlets);
      routes = List.copyOf(routes);
      pipes = Map.copyOf(pipes);
    }

    /**
     * The route of the given id.
     *
     * @throws BadInputException if the plan has no such route
     */
    public Route route(String id) {
      return routes.stream()
          .filter(route -> route.id().equals(id))
          .findFirst()
          .orElseThrow(
              () ->
                  new BadInputException(
                      "route " + id,
                      "the plan has no such route",
                      routes.isEmpty()
                          ? "it has none at all"
                          : "it has "
                              + String.join(", ", routes.stream().map(Route::id).toList())));
    }
  }

  /**
   * Reads the plan that an earlier run wrote into a folder.
   *
   * @throws BadInputException if the folder holds none, or one that cannot be understood
   */
  public static Plan read(Path folder) {
    Path file = folder.resolve(FILE);
    try {
      return read(file, new ObjectMapper().readTree(Files.readAllBytes(file)));
    } catch (NoSuchFileException e) {
      throw new BadInputException(
          folder.toString(), "holds no " + FILE, "give the folder that a plan was written to");
    } catch (JsonProcessingException e) {
      throw broken(file, "is not JSON (" + e.getOriginalMessage() + ")");
    } catch (IOException e) {
      throw broken(file, "cannot be read (" + e.getMessage() + ")");
    }
  }

  private static Plan read(Path file, JsonNode root) {
    if (root.path("schemaVersion").asInt(-1) != ResultsWriter.SCHEMA_VERSION) {
      throw new BadInputException(
          file.toString(),
          "is not of version " + ResultsWriter.SCHEMA_VERSION,
          "run the plan again with this version of the program");
    }
    ResultsReader reader =
        new ResultsReader(file, root.path("site").path("metresPerUnit").asDouble(Double.NaN));
    JsonNode site = root.path("site");
    Map<String, List<List<LaidPipe>>> pipes = new HashMap<>();
    for (JsonNode route : root.path("routes")) {
      pipes.put(reader.text(route, "id"), reader.pipes(route.path("design")));
    }
    return new Plan(
        reader.text(site, "name"),
        reader.text(site, "crs"),
        reader.number(site, "metresPerUnit"),
        reader.limits(site.path("drain")),
        optional(site.path("soil"), "frostDepthM"),
        reader.list(root, "outlets", reader::outlet),
        reader.list(root, "routes", reader::route),
        pipes);
  }

  private DrainLimits limits(JsonNode drain) {
    return new DrainLimits(
        number(drain, "minGrade"),
        number(drain, "maxGrade"),
        number(drain, "minCoverM"),
        number(drain, "maxDepthM"),
        number(drain, "setbackM"),
        number(drain, "fromBuildingM"),
        number(drain, "trenchWidthM"),
        number(drain, "pipeOutsideM"),
        number(drain, "pipeInsideM"),
        number(drain, "verticalClearanceM"),
        number(drain, "boreMaxLengthM"),
        word(DrainLimits.GradeLine.class, drain, "gradeLine"));
  }

  private Outlet outlet(JsonNode outlet) {
    return new Outlet(
        text(outlet, "id"),
        word(Outlet.Kind.class, outlet, "kind"),
        new Coordinate(metres(number(outlet, "x")), metres(number(outlet, "y"))),
        optional(outlet, "invertM"),
        optional(outlet, "waterLevelM"),
        optional(outlet, "lidM"),
        text(outlet, "permitNote"),
        optional(outlet, "usualLevelM"));
  }

  private Route route(JsonNode route) {
    return new Route(
        text(route, "id"),
        word(DrainKind.class, route, "kind"),
        (int) number(route, "rank"),
        text(route, "outletId"),
        line(route),
        list(route, "branches", this::branch),
        number(route, "fallM"),
        number(route, "minGrade"),
        number(route, "maxGrade"),
        number(route, "minCoverM"),
        number(route, "maxDepthM"),
        (int) number(route, "gradeBreaks"),
        number(route, "searchPrice"),
        list(route, "crosses", JsonNode::asText),
        list(route, "bores", this::bore),
        list(route, "reasons", JsonNode::asText),
        list(route, "cautions", JsonNode::asText),
        new Audit(list(route.path("audit"), "checks", this::check)));
  }

  /** A plan of an earlier version does not say which line is joined: it was the main line. */
  private Route.Branch branch(JsonNode branch) {
    return new Route.Branch(
        line(branch), branch.path("joins").asInt(0), number(branch, "junctionM"));
  }

  private List<List<LaidPipe>> pipes(JsonNode design) {
    return design.isMissingNode()
        ? List.of()
        : list(design, "lines", line -> list(line, "stretches", this::laid));
  }

  private LaidPipe laid(JsonNode stretch) {
    JsonNode pipe = stretch.path("pipe");
    int count = (int) number(stretch, "count");
    return new LaidPipe(
        number(stretch, "fromM"),
        number(stretch, "toM"),
        (count > 1 ? count + " × " : "") + text(pipe, "name"),
        number(pipe, "outsideM"),
        number(pipe, "insideM"));
  }

  private Bore bore(JsonNode bore) {
    return new Bore(
        (int) number(bore, "line"),
        number(bore, "fromM"),
        number(bore, "toM"),
        new SlabPipes((int) number(bore, "count"), solid(bore.path("pipe"))));
  }

  private Pipe solid(JsonNode pipe) {
    return new Pipe(
        word(Pipe.Material.class, pipe, "material"),
        false,
        number(pipe, "nominalIn"),
        number(pipe, "insideM"),
        number(pipe, "outsideM"),
        number(pipe, "n"),
        "",
        0,
        Pipe.Opening.NONE,
        0);
  }

  private DrainLine line(JsonNode line) {
    List<Station> stations = list(line, "stations", this::station);
    if (stations.isEmpty()) {
      throw broken(file, "has a line without stations");
    }
    return new DrainLine(list(line, "vertices", this::vertex), stations);
  }

  private Coordinate vertex(JsonNode pair) {
    if (!pair.path(0).isNumber() || !pair.path(1).isNumber()) {
      throw broken(file, "has a vertex that is not a pair of numbers");
    }
    return new Coordinate(metres(pair.get(0).doubleValue()), metres(pair.get(1).doubleValue()));
  }

  private Station station(JsonNode station) {
    return new Station(
        number(station, "stationM"),
        metres(number(station, "x")),
        metres(number(station, "y")),
        number(station, "groundM"),
        number(station, "invertM"),
        number(station, "coverM"),
        number(station, "depthM"),
        number(station, "grade"),
        word(Station.Span.class, station, "span"));
  }

  private Audit.Check check(JsonNode check) {
    return new Audit.Check(
        text(check, "name"),
        check.path("passed").asBoolean(),
        check.path("worst").asDouble(Double.NaN),
        check.path("limit").asDouble(Double.NaN),
        text(check, "unit"),
        check.path("atStationM").asDouble(Double.NaN));
  }

  private double metres(double crsUnits) {
    return crsUnits * metresPerUnit;
  }

  private <T> List<T> list(JsonNode parent, String key, Function<JsonNode, T> reader) {
    if (!parent.path(key).isArray()) {
      throw broken(file, "has no list '" + key + "' where one is needed");
    }
    List<T> items = new ArrayList<>();
    parent.get(key).forEach(item -> items.add(reader.apply(item)));
    return items;
  }

  private double number(JsonNode parent, String key) {
    if (!parent.path(key).isNumber()) {
      throw broken(file, "has no number '" + key + "' where one is needed");
    }
    return parent.get(key).doubleValue();
  }

  private static OptionalDouble optional(JsonNode parent, String key) {
    return parent.path(key).isNumber()
        ? OptionalDouble.of(parent.get(key).doubleValue())
        : OptionalDouble.empty();
  }

  private String text(JsonNode parent, String key) {
    if (!parent.path(key).isTextual()) {
      throw broken(file, "has no text '" + key + "' where one is needed");
    }
    return parent.get(key).textValue();
  }

  private <E extends Enum<E>> E word(Class<E> type, JsonNode parent, String key) {
    try {
      return Words.parse(type, text(parent, key));
    } catch (IllegalArgumentException e) {
      throw broken(file, "has an unknown '" + key + "': " + CleanText.cut(text(parent, key), 40));
    }
  }

  private static BadInputException broken(Path file, String what) {
    return new BadInputException(file.toString(), what, "run the plan again");
  }
}
