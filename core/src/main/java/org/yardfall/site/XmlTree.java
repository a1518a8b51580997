package org.yardfall.site;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import javax.xml.parsers.DocumentBuilder;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.w3c.dom.Element;
import org.xml.sax.ErrorHandler;
import org.xml.sax.SAXException;
import org.xml.sax.SAXParseException;

/** Reads an XML document whole; nothing that it refers to is fetched. */
final class XmlTree {

  private XmlTree() {}

  /**
   * The root of a document.
   *
   * @throws BadInputException if it cannot be read or is not well-formed
   */
  static Element read(Path path) {
    String file = path.getFileName().toString();
    try {
      return parse(path);
    } catch (SAXParseException e) {
      throw new BadInputException(
          file, "the file is not well-formed XML (line " + e.getLineNumber() + ")", "");
    } catch (SAXException | ParserConfigurationException | IOException e) {
      throw new BadInputException(file, "the file cannot be read (" + e.getMessage() + ")", "");
    }
  }

  private static Element parse(Path path)
      throws ParserConfigurationException, SAXException, IOException {
    DocumentBuilderFactory factory = DocumentBuilderFactory.newDefaultInstance();
    factory.setNamespaceAware(true);
    // Without a document type there are no entities to expand or to fetch.
    factory.setFeature("http://apache.org/xml/features/disallow-doctype-decl", true);
    DocumentBuilder builder = factory.newDocumentBuilder();
    builder.setErrorHandler(
        new ErrorHandler() {
          @Override
          public void warning(SAXParseException e) {}

          @Override
          public void error(SAXParseException e) throws SAXParseException {
            throw e;
          }

          @Override
          public void fatalError(SAXParseException e) throws SAXParseException {
            throw e;
          }
        });
    try (var in = Files.newInputStream(path)) {
      return builder.parse(in).getDocumentElement();
    }
  }
}
