import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.File;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import javax.xml.parsers.DocumentBuilderFactory;
import org.verapdf.gf.foundry.VeraGreenfieldFoundryProvider;
import org.verapdf.pdfa.Foundries;
import org.verapdf.pdfa.PDFAParser;
import org.verapdf.pdfa.PDFAValidator;
import org.verapdf.pdfa.flavours.PDFAFlavour;
import org.verapdf.pdfa.flavours.PDFAFlavour.Specification;
import org.verapdf.pdfa.results.TestAssertion;
import org.verapdf.pdfa.results.ValidationResult;
import org.verapdf.pdfa.validation.profiles.ErrorArgument;
import org.verapdf.pdfa.validation.profiles.ErrorArgumentImpl;
import org.verapdf.pdfa.validation.profiles.Profiles;
import org.verapdf.pdfa.validation.profiles.Rule;
import org.verapdf.pdfa.validation.profiles.ValidationProfile;
import org.verapdf.pdfa.validation.profiles.Variable;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;

/**
 * Holds files against the reference rules of a standard, both named on the command line, and prints
 * a line of JSON for each file: how many rules were applied, how many assertions were made, and those
 * that failed, each with its clause and test, what is wrong and where.
 */
public final class ReferenceRules {
    private static final String FOLDER = "/org/verapdf/pdfa/validation/";
    private static final Map<PDFAFlavour, String> RULES =
            Map.of(PDFAFlavour.PDFUA_1, "PDFUA-1.xml", PDFAFlavour.PDFA_2_A, "PDFA-2A.xml");

    public static void main(String[] names) throws Exception {
        VeraGreenfieldFoundryProvider.initialise();
        PDFAFlavour standard = PDFAFlavour.valueOf(names[0]);
        ValidationProfile rules = rules(standard);
        ObjectMapper json = new ObjectMapper();
        for (String name : Arrays.copyOfRange(names, 1, names.length)) {
            try (PDFAParser file = Foundries.defaultInstance().createParser(new File(name), standard);
                    PDFAValidator validator = Foundries.defaultInstance().createValidator(rules, false)) {
                System.out.println(json.writeValueAsString(report(name, rules, validator.validate(file))));
            }
        }
    }

    private static Map<String, Object> report(String name, ValidationProfile rules, ValidationResult result) {
        List<Map<String, String>> failed = new ArrayList<>();
        for (TestAssertion found : result.getTestAssertions()) {
            String rule = found.getRuleId().getClause() + "-" + found.getRuleId().getTestNumber();
            String where = String.valueOf(found.getLocation().getContext());
            failed.add(Map.of("rule", rule, "broken", found.getMessage(), "where", where));
        }
        return Map.of(
                "file", name,
                "rules", rules.getRules().size(),
                "assertions", result.getTotalAssertions(),
                "compliant", result.isCompliant(),
                "failed", failed);
    }

    /** The rules from their file. The engine's own way needs a library that its package leaves out. */
    private static ValidationProfile rules(PDFAFlavour standard) throws Exception {
        Document file;
        try (InputStream stream = ReferenceRules.class.getResourceAsStream(FOLDER + RULES.get(standard))) {
            file = DocumentBuilderFactory.newInstance().newDocumentBuilder().parse(stream);
        }
        Set<Rule> rules = new HashSet<>();
        for (Element rule : all(file.getDocumentElement(), "rule")) {
            Element id = all(rule, "id").get(0);
            List<ErrorArgument> arguments = new ArrayList<>();
            for (Element argument : all(rule, "argument")) {
                arguments.add(ErrorArgumentImpl.fromValues(argument.getTextContent(), null, null));
            }
            rules.add(Profiles.ruleFromValues(
                    Profiles.ruleIdFromValues(
                            Specification.valueOf(id.getAttribute("specification")),
                            id.getAttribute("clause"),
                            Integer.parseInt(id.getAttribute("testNumber"))),
                    rule.getAttribute("object"),
                    Boolean.parseBoolean(rule.getAttribute("deferred")),
                    rule.getAttribute("tags"),
                    text(rule, "description"),
                    text(rule, "test"),
                    Profiles.errorFromValues(text(rule, "message"), arguments),
                    List.of()));
        }
        Set<Variable> variables = new HashSet<>();
        for (Element variable : all(file.getDocumentElement(), "variable")) {
            variables.add(Profiles.variableFromValues(
                    variable.getAttribute("name"),
                    variable.getAttribute("object"),
                    text(variable, "defaultValue"),
                    text(variable, "value")));
        }
        return Profiles.profileFromValues(
                standard,
                Profiles.profileDetailsFromValues(standard.name(), "", "", new java.util.Date(0)),
                "",
                rules,
                variables);
    }

    private static List<Element> all(Element under, String name) {
        NodeList nodes = under.getElementsByTagName(name);
        List<Element> found = new ArrayList<>();
        for (int index = 0; index < nodes.getLength(); index++) {
            found.add((Element) nodes.item(index));
        }
        return found;
    }

    private static String text(Element under, String name) {
        return all(under, name).get(0).getTextContent();
    }
}
