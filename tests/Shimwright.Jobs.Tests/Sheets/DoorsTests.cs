using System.Text;
using System.Text.Json.Nodes;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Sheets;
using Shimwright.Jobs.Tests.Samples;
using Shimwright.Jobs.Written;

namespace Shimwright.Jobs.Tests.Sheets;

/// <summary>A sheet is judged as the file that says the same, though no text is written for it.</summary>
public class DoorsTests
{
    private const int Sheets = 400;

    private static readonly double[] Numbers = [-1, 0, 1e-9, 0.001, 0.005, 0.05, 0.14, 0.17, 0.66, 0.8, 1, 2.55, 2.62, 11.4, 22.9, 118, 262, 5e3, 1e9, -0.0];
    private static readonly string[] Names = ["I1", "E1", "X9", "intake cam", "exhaust cam", "marked", "micrometer", "eye", "light", "no", "sticky \"x\"", " ", "a\u0007b", "'", new string('l', 70)];

    [Fact]
    public void Read_SheetsOfAllKindsOfFacts_HaveTheProblemsOfTheirFiles()
    {
        Random random = new(20261128);
        int wrong = 0;
        HashSet<string> places = [];
        for (int k = 0; k < Sheets; k++)
        {
            Ledger ledger = k % 3 == 0 ? Ledger.Screws() : k % 3 == 1 ? Ledger.Shims() : Ledger.ShimsMeasured();
            int facts = random.Next(1, 6);
            for (int f = 0; f < facts; f++)
            {
                ledger.Add(AnyFact(random));
            }

            var purpose = (JobPurpose)random.Next(Enum.GetValues<JobPurpose>().Length);
            IReadOnlyList<JobProblem> direct = JobSheetFile.Read(ledger.Sheet, purpose).Problems;
            Assert.Equal(JobFile.Read(Text(ledger.Sheet), purpose).Problems, direct);
            wrong += direct.Count;
            places.UnionWith(direct.Select(p => string.Concat(p.Path.Where(c => !char.IsAsciiDigit(c)))));
        }

        Assert.True(wrong > Sheets && places.Count > 40, $"{wrong} problems in {places.Count} kinds of places are no test of the rules.");
    }

    /// <summary>The sheet's file with its texts escaped as a message has them.</summary>
    private static byte[] Text(JobSheet sheet) => Encoding.UTF8.GetBytes(JsonNode.Parse(JobSheetFile.Write(sheet))!.ToJsonString());

    private static JobFact AnyFact(Random random)
    {
        double N() => Numbers[random.Next(Numbers.Length)];
        string S() => Names[random.Next(Names.Length)];
        MeasuredPart P() => new(N(), N(), random.Next(2) == 0 ? null : N());
        MeasuredPart? Q() => random.Next(2) == 0 ? null : P();
        string Valve() => random.Next(8) == 0 ? S() : random.Next(2) == 0 ? "I1" : "E1";
        SheetPart part = random.Next(6) switch { 0 or 1 => SheetPart.Recheck, 2 => SheetPart.DryFit, _ => SheetPart.Check };
        return random.Next(13) switch
        {
            0 => new BladeTried(part, Valve(), N(), random.Next(-1, 12), random.Next(3) == 0 ? S() : "firm"),
            1 => new ClearanceRead(part, Valve(), N(), N()),
            2 => new BucketTurned(part, Valve(), random.Next(2) == 0),
            3 => new DepthTaken(part, Valve(), S(), P(), Q()),
            4 => new CamshaftMeasured(S(), P(), P(), P(), Q()),
            5 => new CamshaftCompared(S(), Valve(), P(), P(), Q()),
            6 => new CheckStated(N(), N()),
            7 => new RecheckStated(N()),
            8 => new ThicknessFound(Valve(), N(), S()),
            9 => new StockStated([new(N(), S(), random.Next(-1, 20000)), new(2.5, "marked", 1)], [new(N(), N(), N(), N()), new(2, 3, 0.05, 8)]),
            10 => new CostsStated(N(), N(), N(), N(), new Dictionary<string, double> { [S()] = N(), ["intake cam"] = N() }, N()),
            11 => new ShimFitted(Valve(), new(N(), S()), new(N(), "marked")),
            _ => new ScrewTurned(Valve(), N()),
        };
    }
}
