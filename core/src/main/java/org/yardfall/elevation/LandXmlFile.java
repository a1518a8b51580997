package org.yardfall.elevation;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import org.yardfall.site.BadInputException;

/**
 * What a LandXML file (1.0 to 1.2) holds of ground, as stored: points (CgPoint), surfaces with
 * their vertices (P), faces (F), data points and breaklines, and the units. Coordinates are
 * northing, easting, elevation in the file's unit. External entities are not followed.
 */
final class LandXmlFile {

  /** A point as stored: northing, easting, elevation or NaN. */
  @SuppressWarnings("ArrayRecordComponent") // three numbers of one meaning, never written to
  record Point(String id, double[] neh, String code) {}

  /** A surface as stored. */
  static final class Surface {
    private final String name;
    private final List<Point> vertices = new ArrayList<>();
    private final Map<String, Integer> numbers = new HashMap<>();
    private final List<int[]> faces = new ArrayList<>();
    private final List<Point> dataPoints = new ArrayList<>();
    private final List<List<double[]>> breaklines = new ArrayList<>();

    private Surface(String name) {
      this.name = name;
    }

    String name() {
      return name;
    }

    List<Point> vertices() {
      return vertices;
    }

    /** Vertex numbers of each visible face. */
    List<int[]> faces() {
      return faces;
    }

    List<Point> dataPoints() {
      return dataPoints;
    }

    List<List<double[]>> breaklines() {
      return breaklines;
    }
  }

  private final Path file;
  private final List<Point> points = new ArrayList<>();
  private final Map<String, Surface> surfaces = new LinkedHashMap<>();
  private Optional<VerticalUnit> linearUnit = Optional.empty();
  private Optional<VerticalUnit> elevationUnit = Optional.empty();
  private String epsgCode = "";

  private LandXmlFile(Path file) {
    this.file = file;
  }

  /** Whether a text begins as XML does. */
  static boolean looksLike(String sample) {
    return sample.stripLeading().startsWith("<");
  }

  /**
   * Reads a file.
   *
   * @throws BadInputException where it is not well-formed or no LandXML
   */
  static LandXmlFile read(Path file) {
    LandXmlFile read = new LandXmlFile(file);
    XMLInputFactory factory = XMLInputFactory.newDefaultFactory();
    factory.setProperty(XMLInputFactory.SUPPORT_DTD, false);
    factory.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
    try (InputStream in = new BufferedInputStream(Files.newInputStream(file))) {
      XMLStreamReader xml = factory.createXMLStreamReader(in);
      read.document(xml);
      xml.close();
    } catch (XMLStreamException e) {
      throw read.bad(
          "it is not well-formed XML (line " + e.getLocation().getLineNumber() + ")",
          "export it again as LandXML 1.2");
    } catch (IOException e) {
      throw read.bad("it cannot be read (" + e.getMessage() + ")", "check the file");
    }
    return read;
  }

  private void document(XMLStreamReader xml) throws XMLStreamException {
    Surface surface = null;
    boolean root = true;
    while (xml.hasNext()) {
      if (xml.next() != XMLStreamConstants.START_ELEMENT) {
        continue;
      }
      String element = xml.getLocalName();
      if (root && !element.equals("LandXML")) {
        throw bad("it is XML, but not LandXML (its root is " + element + ")", "give LandXML");
      }
      root = false;
      switch (element) {
        case "Metric", "Imperial" -> units(xml);
        case "CoordinateSystem" -> epsgCode = attribute(xml, "epsgCode");
        case "CgPoint" -> cgPoint(xml);
        case "Surface" -> {
          surface = new Surface(attribute(xml, "name"));
          surfaces.put(surface.name, surface);
        }
        case "P" -> vertex(xml, surface);
        case "F" -> face(xml, surface);
        case "DataPoints", "Breakline" -> points(xml, element, surface);
        default -> {}
      }
    }
  }

  private void units(XMLStreamReader xml) {
    linearUnit = unit(attribute(xml, "linearUnit"));
    elevationUnit = unit(attribute(xml, "elevationUnit"));
  }

  /** LandXML's foot is the international one; the US survey foot has a name of its own. */
  private Optional<VerticalUnit> unit(String word) {
    return word.isBlank() ? Optional.empty() : VerticalUnit.ofWord(word, "its Units");
  }

  private void cgPoint(XMLStreamReader xml) throws XMLStreamException {
    String id = attribute(xml, "name");
    String code = (attribute(xml, "code") + " " + attribute(xml, "desc")).strip();
    double[] neh = numbers(xml.getElementText());
    if (neh.length >= 2) {
      points.add(point(id, neh, 0, neh.length, code));
    }
  }

  private static Point point(String id, double[] from, int at, int size, String code) {
    return new Point(
        id, new double[] {from[at], from[at + 1], size > 2 ? from[at + 2] : Double.NaN}, code);
  }

  private void vertex(XMLStreamReader xml, Surface surface) throws XMLStreamException {
    if (surface == null) {
      return;
    }
    String id = attribute(xml, "id");
    double[] neh = numbers(xml.getElementText());
    if (neh.length < 3) {
      throw bad("point " + id + " of surface " + surface.name + " has no elevation", "mend it");
    }
    surface.numbers.put(id, surface.vertices.size());
    surface.vertices.add(point(id, neh, 0, 3, ""));
  }

  private void face(XMLStreamReader xml, Surface surface) throws XMLStreamException {
    boolean invisible = attribute(xml, "i").equals("1");
    String[] ids = xml.getElementText().strip().split("\\s+", -1);
    if (surface == null || invisible) {
      return;
    }
    int[] corners = new int[3];
    for (int i = 0; i < 3; i++) {
      Integer number = i < ids.length ? surface.numbers.get(ids[i]) : null;
      if (number == null) {
        throw bad(
            "a face of surface "
                + surface.name
                + " names points that it does not hold: "
                + String.join(" ", ids),
            "export it again");
      }
      corners[i] = number;
    }
    surface.faces.add(corners);
  }

  /** Lists of points within data points or a breakline. */
  private void points(XMLStreamReader xml, String parent, Surface surface)
      throws XMLStreamException {
    while (xml.next() != XMLStreamConstants.END_ELEMENT || !xml.getLocalName().equals(parent)) {
      if (!xml.isStartElement() || !xml.getLocalName().equals("PntList3D")) {
        continue;
      }
      double[] numbers = numbers(xml.getElementText());
      if (surface == null) {
        continue;
      }
      List<double[]> line = new ArrayList<>();
      for (int i = 0; i + 2 < numbers.length; i += 3) {
        Point point = point("data point " + (surface.dataPoints.size() + 1), numbers, i, 3, "");
        surface.dataPoints.add(point);
        line.add(point.neh());
      }
      if (parent.equals("Breakline")) {
        surface.breaklines.add(line);
      }
    }
  }

  private static String attribute(XMLStreamReader xml, String name) {
    String value = xml.getAttributeValue(null, name);
    return value == null ? "" : value.strip();
  }

  private double[] numbers(String text) {
    String plain = text.strip();
    if (plain.isEmpty()) {
      return new double[0];
    }
    String[] words = plain.split("\\s+", -1);
    double[] numbers = new double[words.length];
    for (int i = 0; i < words.length; i++) {
      try {
        numbers[i] = Double.parseDouble(words[i]);
      } catch (NumberFormatException e) {
        throw bad("'" + words[i] + "' is no coordinate", "export it again");
      }
      if (!Double.isFinite(numbers[i])) {
        throw bad("'" + words[i] + "' is no coordinate", "export it again");
      }
    }
    return numbers;
  }

  private BadInputException bad(String what, String mend) {
    return new BadInputException(file.toString(), what, mend);
  }

  Path file() {
    return file;
  }

  List<Point> points() {
    return points;
  }

  /** The surfaces in the file's order. */
  List<Surface> surfaces() {
    return List.copyOf(surfaces.values());
  }

  Optional<VerticalUnit> linearUnit() {
    return linearUnit;
  }

  /** The unit of elevations where the file names another than that of lengths. */
  Optional<VerticalUnit> elevationUnit() {
    return elevationUnit;
  }

  /** The EPSG code of the coordinates as the file names it, or empty. */
  String epsgCode() {
    return epsgCode.toUpperCase(Locale.ROOT).replace("EPSG:", "");
  }
}
