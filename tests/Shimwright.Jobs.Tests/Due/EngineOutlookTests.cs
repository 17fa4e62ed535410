using System.Globalization;
using Shimwright.Jobs.Due;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Past;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Settings;
using Shimwright.Jobs.Sheets;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Due;

public class EngineOutlookTests
{
    /// <summary>E1 jumped, was given another shim and lies where that puts it: what made it jump may still be there.</summary>
    [Fact]
    public void ToResult_JumpThatTheWorkPutRight_IsStillASign()
    {
        JobSheet sheet = Closed(found: 0.02, to: 2.43, again: 0.19);
        SignRow sign = Assert.Single(Signs(sheet));
        Assert.StartsWith("E1: the clearance has jumped", sign.Sign, StringComparison.Ordinal);
    }

    [Fact]
    public void ToResult_NothingOutOfTheWay_HasNoSign() => Assert.Empty(Signs(Closed(found: 0.17, to: 2.58, again: 0.19)));

    private static IReadOnlyList<SignRow> Signs(JobSheet sheet)
    {
        EngineOutlook outlook = EngineOutlook.Of(sheet.Setup.Card, [new(Guid.NewGuid(), sheet, PastOrigin.File)], new BenchSettings(), null)!;
        return outlook.ToResult(outlook.Card).Signs;
    }

    /// <summary>Three checks at which all is as usual, and a fourth at which E1 is found, given another shim and felt again.</summary>
    private static JobSheet Closed(double found, double to, double again)
    {
        string past = string.Join(",", Enumerable.Range(0, 3).Select(k => Check(30 * k, 0.16 - (0.02 * k), 0.23 - (0.02 * k))));
        Ledger ledger = Ledger.ImportedJob($$"""
            {"format": "shimwright-job/1",
             "engine": {"name": "Loan saw", "valvetrain": "shim-under-bucket",
                        "valves": [{"id": "I1", "cylinder": 1, "side": "intake", "access": "cams", "band": [0.10, 0.17]},
                                   {"id": "E1", "cylinder": 1, "side": "exhaust", "access": "cams", "band": [0.17, 0.24]}],
                        "wear": {"clock": "hours", "interval": 30, "lossPerInterval": 0.02, "spread": 0.005} },
             "history": [{{past}}],
             "check": {{Check(90, 0.10, found)}},
             "recheck": {"changed": [{"valve": "E1", "from": {"thickness": 2.6, "by": "micrometer"}, "to": {"thickness": {{Text(to)}}, "by": "micrometer"} }],
                         "readings": [{"valve": "E1", "value": {{Text(again)}}, "u": 0.005}]} }
            """);
        ledger.Add(new JobClosed(90, "", "", ""));
        return ledger.Sheet;
    }

    private static string Check(double clock, double intake, double exhaust) =>
        $$"""{"clock": {{Text(clock)}}, "readings": [{"valve": "I1", "value": {{Text(intake)}}, "u": 0.005}, {"valve": "E1", "value": {{Text(exhaust)}}, "u": 0.005}]}""";

    private static string Text(double number) => number.ToString("0.####", CultureInfo.InvariantCulture);
}
