import java.io.FileInputStream;
import org.verapdf.core.VeraPDFException;
import org.verapdf.gf.foundry.VeraGreenfieldFoundryProvider;
import org.verapdf.pdfa.Foundries;
import org.verapdf.pdfa.PDFAParser;
import org.verapdf.pdfa.PDFAValidator;
import org.verapdf.pdfa.flavours.PDFAFlavour;
import org.verapdf.pdfa.results.TestAssertion;
import org.verapdf.pdfa.results.ValidationResult;

/** Checks files against the reference PDF/UA-1 rules; one line per finding, "ok" for a clean file. */
public final class ReferenceCheck {
    public static void main(String[] names) throws Exception {
        VeraGreenfieldFoundryProvider.initialise();
        for (String name : names) {
            try (PDFAParser parser =
                    Foundries.defaultInstance().createParser(new FileInputStream(name), PDFAFlavour.PDFUA_1);
                    PDFAValidator validator =
                            Foundries.defaultInstance().createValidator(PDFAFlavour.PDFUA_1, false)) {
                ValidationResult result = validator.validate(parser);
                for (TestAssertion found : result.getTestAssertions()) {
                    System.out.println(name + ": " + found.getRuleId().getClause() + " " + found.getMessage());
                }
                System.out.println(name + ": " + (result.isCompliant() ? "ok " : "failed ") + result.getTotalAssertions());
            }
        }
    }
}
