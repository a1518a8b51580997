package org.yardfall.elevation;

import java.io.IOException;
import java.io.StringReader;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import javax.xml.XMLConstants;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;
import org.xml.sax.SAXException;
import org.yardfall.site.BadInputException;

/**
 * What GDAL notes of a band in a TIFF tag of its own, as XML: elevation = stored value × scale +
 * offset, in a named unit.
 *
 * @param scale what a stored value is multiplied by
 * @param offset what is added then
 * @param unit the unit, where named
 */
record BandNotes(double scale, double offset, Optional<VerticalUnit> unit) {

  /** Words that programs write where they know no unit. */
  private static final Set<String> UNNAMED = Set.of("", "other", "unknown", "none");

  /** The notes in the given XML, or none for an empty text. */
  static BandNotes of(Path file, String xml) {
    double scale = 1;
    double offset = 0;
    Optional<VerticalUnit> unit = Optional.empty();
    if (xml.isBlank()) {
      return new BandNotes(scale, offset, unit);
    }
    NodeList items = items(file, xml);
    for (int i = 0; i < items.getLength(); i++) {
      Element item = (Element) items.item(i);
      String sample = item.getAttribute("sample");
      if (!sample.isEmpty() && !sample.equals("0")) {
        continue;
      }
      String value = item.getTextContent().strip();
      switch (item.getAttribute("role").toLowerCase(Locale.ROOT)) {
        case "scale" -> scale = number(file, "scale", value);
        case "offset" -> offset = number(file, "offset", value);
        case "unittype" -> unit = unit(file, value);
        default -> {}
      }
    }
    if (scale == 0) {
      throw new BadInputException(file.toString(), "its scale is 0", "write its scale anew");
    }
    return new BandNotes(scale, offset, unit);
  }

  private static NodeList items(Path file, String xml) {
    try {
      DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
      factory.setFeature(XMLConstants.FEATURE_SECURE_PROCESSING, true);
      factory.setFeature("http://apache.org/xml/features/disallow-doctype-decl", true);
      return factory
          .newDocumentBuilder()
          .parse(new InputSource(new StringReader(xml.strip())))
          .getElementsByTagName("Item");
    } catch (ParserConfigurationException | SAXException | IOException e) {
      throw new BadInputException(
          file.toString(),
          "the notes on its band (scale, offset, unit) cannot be read",
          "write the raster anew without them, elevations in metres");
    }
  }

  private static double number(Path file, String name, String value) {
    try {
      double number = Double.parseDouble(value);
      if (Double.isFinite(number)) {
        return number;
      }
    } catch (NumberFormatException e) {
      // said below
    }
    throw new BadInputException(
        file.toString(), "its " + name + " '" + value + "' is no number", "write it anew");
  }

  private static Optional<VerticalUnit> unit(Path file, String word) {
    if (UNNAMED.contains(word.toLowerCase(Locale.ROOT))) {
      return Optional.empty();
    }
    Optional<VerticalUnit> unit = VerticalUnit.ofWord(word, "the band's unit in the file");
    if (unit.isEmpty()) {
      throw new BadInputException(
          file.toString(),
          "its band is in '" + word + "', which is not known as a unit of elevation",
          "give a raster of elevations in metres or feet");
    }
    return unit;
  }
}
