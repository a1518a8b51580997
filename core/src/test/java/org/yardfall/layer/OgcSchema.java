package org.yardfall.layer;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import javax.xml.XMLConstants;
import javax.xml.transform.Source;
import javax.xml.transform.stream.StreamSource;
import javax.xml.validation.Schema;
import javax.xml.validation.SchemaFactory;
import javax.xml.validation.Validator;
import org.w3c.dom.bootstrap.DOMImplementationRegistry;
import org.w3c.dom.ls.DOMImplementationLS;
import org.w3c.dom.ls.LSInput;
import org.xml.sax.ErrorHandler;
import org.xml.sax.SAXException;
import org.xml.sax.SAXParseException;

/** A schema as the OGC publishes it, read from files; nothing is fetched. */
final class OgcSchema {

  static final String KML_2_2 = "ogc/kml/2.2.0/ogckml22.xsd";
  static final String SLD_1_0 = "ogc/sld/1.0.0/StyledLayerDescriptor.xsd";

  /** The OGC's own form of it, whose groups bear other names. */
  private static final String XLINK = "bp-ogc/07-062/3.1.1/xlink/xlinks.xsd";

  /** Where the files of other publishers lie. */
  private static final Map<String, String> ELSEWHERE =
      Map.of(
          "http://docs.oasis-open.org/election/external/xAL.xsd",
          "oasis/election/external/xAL.xsd",
          "http://www.w3.org/1999/xlink.xsd",
          XLINK);

  private final Schema schema;

  OgcSchema(String path) throws Exception {
    var implementation =
        (DOMImplementationLS) DOMImplementationRegistry.newInstance().getDOMImplementation("LS");
    SchemaFactory factory = SchemaFactory.newDefaultInstance();
    factory.setFeature(XMLConstants.FEATURE_SECURE_PROCESSING, false); // xAL has large choices
    factory.setResourceResolver(
        (type, namespace, publicId, systemId, base) -> {
          String at = path(systemId, base);
          LSInput input = implementation.createLSInput();
          input.setSystemId("http://schemas.opengis.net/" + at.replaceFirst("^ogc/", ""));
          input.setByteStream(at.equals(XLINK) ? renamed(at) : open(at));
          return input;
        });
    schema =
        factory.newSchema(
            new StreamSource(
                open(path), "http://schemas.opengis.net/" + path.replaceFirst("^ogc/", "")));
  }

  /** What the schema has against a document. */
  List<String> faults(Source document) throws IOException, SAXException {
    List<String> faults = new ArrayList<>();
    Validator validator = schema.newValidator();
    validator.setErrorHandler(
        new ErrorHandler() {
          @Override
          public void warning(SAXParseException e) {
            faults.add(e.getMessage());
          }

          @Override
          public void error(SAXParseException e) {
            faults.add(e.getLineNumber() + ": " + e.getMessage());
          }

          @Override
          public void fatalError(SAXParseException e) {
            error(e);
          }
        });
    validator.validate(document);
    return faults;
  }

  private static String path(String systemId, String base) {
    String whole = URI.create(base).resolve(systemId).toString();
    if (ELSEWHERE.containsKey(whole)) {
      return ELSEWHERE.get(whole);
    }
    return "ogc/" + whole.substring("http://schemas.opengis.net/".length());
  }

  private static InputStream renamed(String path) {
    try (InputStream in = open(path)) {
      String text = new String(in.readAllBytes(), StandardCharsets.UTF_8);
      return new ByteArrayInputStream(
          text.replace("simpleLink", "simpleAttrs").getBytes(StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static InputStream open(String path) {
    InputStream in = OgcSchema.class.getClassLoader().getResourceAsStream(path);
    if (in == null) {
      throw new IllegalStateException("no schema " + path);
    }
    return in;
  }
}
