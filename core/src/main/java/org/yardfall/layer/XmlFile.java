package org.yardfall.layer;

import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;

/**
 * Writes an XML document, an element a line; text and attributes are escaped by the JDK's writer.
 */
final class XmlFile implements AutoCloseable {

  private final XMLStreamWriter xml;
  private int depth;

  XmlFile(OutputStream out) throws XMLStreamException {
    xml =
        XMLOutputFactory.newDefaultFactory()
            .createXMLStreamWriter(out, StandardCharsets.UTF_8.name());
    xml.writeStartDocument(StandardCharsets.UTF_8.name(), "1.0");
  }

  /** Opens an element; attributes are pairs of a name and a value. */
  XmlFile open(String element, String... attributes) throws XMLStreamException {
    indent();
    start(element, attributes);
    depth++;
    return this;
  }

  XmlFile close(String element) throws XMLStreamException {
    depth--;
    indent();
    xml.writeEndElement();
    return this;
  }

  /** An element that holds text; nothing where the text is null. */
  XmlFile text(String element, String text, String... attributes) throws XMLStreamException {
    if (text != null) {
      indent();
      start(element, attributes);
      xml.writeCharacters(text);
      xml.writeEndElement();
    }
    return this;
  }

  /** An element without content. */
  XmlFile empty(String element, String... attributes) throws XMLStreamException {
    indent();
    start(element, attributes);
    xml.writeEndElement();
    return this;
  }

  private void start(String element, String... attributes) throws XMLStreamException {
    xml.writeStartElement(element);
    for (int i = 0; i < attributes.length; i += 2) {
      xml.writeAttribute(attributes[i], attributes[i + 1]);
    }
  }

  private void indent() throws XMLStreamException {
    xml.writeCharacters("\n" + " ".repeat(depth));
  }

  @Override
  public void close() throws XMLStreamException {
    xml.writeEndDocument();
    xml.writeCharacters("\n");
    xml.close();
  }
}
