package org.yardfall.layer;

import com.fasterxml.jackson.core.JsonEncoding;
import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import java.io.IOException;
import java.io.OutputStream;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Collection;
import java.util.OptionalDouble;

/** Writes JSON for people and programs: numbers rounded, missing ones left out, text made clean. */
final class JsonText implements AutoCloseable {

  /** Decimals of lengths and elevations in metres: 0.1 mm, so that a grade can be recomputed. */
  static final int LENGTH = 4;

  /** Decimals of diameters and of what is as thin, in metres. */
  static final int DIAMETER = 6;

  static final int AREA = 3;
  static final int VOLUME = 4;
  static final int FLOW = 7;
  static final int GRADE = 7;

  private final JsonGenerator json;

  JsonText(OutputStream out) throws IOException {
    json = new JsonFactory().createGenerator(out, JsonEncoding.UTF8);
    json.disable(JsonGenerator.Feature.AUTO_CLOSE_TARGET);
    json.enable(JsonGenerator.Feature.WRITE_BIGDECIMAL_AS_PLAIN);
    json.setPrettyPrinter(
        new DefaultPrettyPrinter().withObjectIndenter(new DefaultIndenter("  ", "\n")));
  }

  /** What writes the inside of an object or an element of an array. */
  interface Body<T> {
    void write(T item) throws IOException;
  }

  JsonText open() throws IOException {
    json.writeStartObject();
    return this;
  }

  JsonText open(String key) throws IOException {
    json.writeObjectFieldStart(key);
    return this;
  }

  JsonText end() throws IOException {
    json.writeEndObject();
    return this;
  }

  <T> JsonText array(String key, Collection<T> items, Body<T> body) throws IOException {
    json.writeArrayFieldStart(key);
    for (T item : items) {
      body.write(item);
    }
    json.writeEndArray();
    return this;
  }

  <T> JsonText objects(String key, Collection<T> items, Body<T> body) throws IOException {
    return array(
        key,
        items,
        item -> {
          json.writeStartObject();
          body.write(item);
          json.writeEndObject();
        });
  }

  JsonText texts(String key, Collection<String> texts) throws IOException {
    return array(key, texts, text -> json.writeString(CleanText.of(text)));
  }

  JsonText text(String key, String text) throws IOException {
    json.writeStringField(key, CleanText.of(text));
    return this;
  }

  JsonText flag(String key, boolean value) throws IOException {
    json.writeBooleanField(key, value);
    return this;
  }

  JsonText integer(String key, int value) throws IOException {
    json.writeNumberField(key, value);
    return this;
  }

  /** A number; left out where it is not finite. */
  JsonText number(String key, double value, int decimals) throws IOException {
    if (Double.isFinite(value)) {
      json.writeFieldName(key);
      json.writeNumber(rounded(value, decimals));
    }
    return this;
  }

  JsonText number(String key, OptionalDouble value, int decimals) throws IOException {
    return number(key, value.orElse(Double.NaN), decimals);
  }

  /** A pair of coordinates as an array. */
  void pair(double x, double y, int decimals) throws IOException {
    json.writeStartArray();
    json.writeNumber(rounded(x, decimals));
    json.writeNumber(rounded(y, decimals));
    json.writeEndArray();
  }

  private static BigDecimal rounded(double value, int decimals) {
    BigDecimal number = BigDecimal.valueOf(value).setScale(decimals, RoundingMode.HALF_UP);
    return number.signum() == 0 ? BigDecimal.ZERO : number.stripTrailingZeros();
  }

  @Override
  public void close() throws IOException {
    json.writeRaw('\n');
    json.close();
  }
}
