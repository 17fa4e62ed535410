using System.Globalization;
using Shimwright.Pages.Labels;
using Shimwright.Testing;

namespace Shimwright.Pages.Tests.Labels;

/// <summary>What is printed can be read and lies on its label: read back from the files, the codes by a reader that is not ours.</summary>
public class LabelSheetTests
{
    private const double Near = 0.1;

    private const string HostLetters = "abcdefghijklmnopqrstuvwxyz0123456789-";

    private static readonly DateTime Now = new(2026, 11, 28, 12, 0, 0, DateTimeKind.Utc);

    public static TheoryData<string> Layouts => [.. LabelLayout.All.Select(l => l.Id)];

    [Theory, Long]
    [MemberData(nameof(Layouts))]
    public void Files_OfEveryLayout_HoldWhatCanBeReadAndNothingElse(string id)
    {
        LabelLayout layout = LabelLayout.Named(id)!;
        Random chance = new(id.Length * 31 + (int)layout.First.Width);
        int begin = layout.IsRoll ? 1 : layout.PerSheet - 3, sheets = 0;
        for (int round = 0; round < Effort.Cases(3, 100); round++)
        {
            Label[] labels = [.. Enumerable.Range(0, 7).Select(_ => Draw(chance))];
            IReadOnlyList<LabelSheet> laid = LabelSheet.Lay(labels, new(LabelKind.Drawer, layout, begin, HasFrame: true, null));
            IReadOnlyList<DrawnSheet> pdf = DrawnSheet.OfPdf(LabelPdf.Write(laid, "Labels", Now));
            Assert.Equal(laid.Count, pdf.Count);
            Assert.Equal(labels.Length, laid.Sum(s => s.Labels.Count));
            int next = 0;
            foreach ((LabelSheet sheet, DrawnSheet printed) in laid.Zip(pdf))
            {
                Label[] here = labels[next..(next + sheet.Labels.Count)];
                int place = next == 0 ? begin - 1 : 0;
                AssertSheet(DrawnSheet.OfSvg(LabelSvg.Write(sheet)), layout, place, here);
                AssertSheet(printed, layout, place, here);
                next += sheet.Labels.Count;
                sheets++;
            }
        }

        Assert.True(sheets >= (layout.IsRoll ? 21 : 6));
    }

    /// <summary>ISO/IEC 18004 leaves the size to whoever prints; what phones no longer read for certain is not printed.</summary>
    [Theory]
    [InlineData("tape-12", "http://a.local/engines/01234567-89ab-cdef-0123-456789abcdef", false)]
    [InlineData("a4-5x13", "https://bench.local:7340/engines/01234567-89ab-cdef-0123-456789abcdef", true)]
    [InlineData("roll-29", "https://bench.local:7340/drawer/shim?diameter=9480&thickness=2405&by=micrometer", true)]
    public void Lay_ALabelTooSmallForItsCode_LeavesItOff(string layout, string address, bool has)
    {
        Label label = new(address, [new("2.405 mm", 2.2, true), new("9.48 mm diameter")], [new("2.405 mm")]);
        PlacedLabel placed = LabelSheet.Lay([label], new(LabelKind.Drawer, LabelLayout.Named(layout)!, 1, false, null)).Single().Labels.Single();
        Assert.Equal(has, placed.Code is not null);
        Assert.NotEmpty(placed.Lines);
    }

    /// <summary>A label that begins later on its sheet lies where the sheet has it, and the next sheet begins at its first.</summary>
    [Fact]
    public void OnSheet_OfSheetsPartlyUsed_IsWhatAllOfThemHave()
    {
        LabelQuery query = new(LabelKind.Engines, LabelLayout.Usual, 20, false, null);
        Label[] labels = [.. Enumerable.Range(0, 30).Select(k => new Label($"http://a/{k}", [new($"{k}")], [new($"{k}")]))];
        IReadOnlyList<LabelSheet> all = LabelSheet.Lay(labels, query);
        Assert.Equal([2, 21, 7], all.Select(s => s.Labels.Count));
        Assert.Equal(all.Count, query.SheetsFor(labels.Length));
        for (int k = 1; k <= all.Count; k++)
        {
            (IReadOnlyList<Label> here, LabelQuery alone) = query.OnSheet(labels, k);
            Assert.Equal(LabelSvg.Write(all[k - 1]), LabelSvg.Write(LabelSheet.Lay(here, alone).Single()));
        }

        Assert.Empty(query.OnSheet(labels, 4).Labels);
    }

    private static void AssertSheet(DrawnSheet drawn, LabelLayout layout, int place, Label[] labels)
    {
        AssertNear(layout.Sheet, drawn.Paper);
        Assert.Equal(labels.Length, drawn.Frames.Count);
        int codes = 0;
        foreach ((int k, Label label) in labels.Index())
        {
            LabelBox box = layout.At(place + k);
            AssertNear(box, drawn.Frames[k]);
            (LabelBox Place, string Text)[] words = [.. drawn.Words.Where(w => Center(w.Place) is var (x, y) && x > box.X && x < box.Right && y > box.Y && y < box.Bottom)];
            Assert.NotEmpty(words);
            Assert.StartsWith(label.Lines[0].Text[..4], string.Concat(words.Select(w => w.Text)), StringComparison.Ordinal);
            Assert.All(words, w => Assert.True(Holds(box, w.Place), $"{w.Text} at {w.Place} leaves {box}"));
            if (drawn.Codes.SingleOrDefault(c => Holds(box, c[0])) is { } code)
            {
                AssertCode(code, box, words, label.Address);
                codes++;
            }
            else
            {
                // It is left off only where it would not fit beside or below the least of words.
                double wanted = QrCode.Of(label.Address).Width * 0.33;
                Assert.True(wanted > Math.Min(box.Width, box.Height) - 3.01 || wanted > Math.Max(box.Width, box.Height) - 16, $"{label.Address} would fit into {box}");
            }
        }

        Assert.Equal(codes, drawn.Codes.Count);

        // Nothing lies beside the labels.
        Assert.All(drawn.Words, w => Assert.Contains(Enumerable.Range(place, labels.Length), p => Holds(layout.At(p), w.Place)));
    }

    private static void AssertCode(IReadOnlyList<LabelBox> dark, LabelBox label, (LabelBox Place, string Text)[] words, string address)
    {
        Assert.Equal(address, QrReader.Read(dark, label));
        double module = dark.Min(d => d.Height), left = dark.Min(d => d.X), top = dark.Min(d => d.Y);
        Assert.True(module >= 0.33 - 1e-4, $"A module is {module.ToString(CultureInfo.InvariantCulture)} mm.");
        LabelBox code = new(left, top, dark.Max(d => d.Right) - left, dark.Max(d => d.Bottom) - top), quiet = code.Inset(-4 * module);
        Assert.Equal(code.Width, code.Height, 0.01);
        // The width in modules is one of the standard's: 17 and four for each version.
        Assert.Equal(0, ((int)Math.Round(code.Width / module) - 17) % 4);
        Assert.True(Holds(label, quiet), $"{quiet} leaves {label}");
        Assert.All(words, w => Assert.False(quiet.Inset(0.01).Within(w.Place) is { Width: > 0, Height: > 0 }, $"{w.Text} lies in the quiet zone."));
    }

    private static Label Draw(Random chance)
    {
        string host = chance.Next(3) switch
        {
            0 => $"192.168.{chance.Next(256)}.{chance.Next(256)}:{chance.Next(1024, 65536)}",
            1 => $"{Letters(chance, chance.Next(1, 12))}.local:7340",
            _ => $"{Letters(chance, chance.Next(10, 30))}.{Letters(chance, chance.Next(5, 20))}.example/{Letters(chance, chance.Next(1, 10))}/#",
        };
        Guid id = new([.. Enumerable.Range(0, 16).Select(_ => (byte)chance.Next(256))]);
        string path = chance.Next(2) == 0 ? $"engines/{id}" : $"drawer/shim?diameter={chance.Next(5000, 40000)}&thickness={chance.Next(1000, 9999)}&by=micrometer";
        LabelLine name = new($"{chance.Next(1, 9)}.{chance.Next(10, 99)} {string.Concat(Enumerable.Repeat("Wide ", chance.Next(0, 12)))}mm", 2.2, IsBold: true, MayBreak: chance.Next(2) == 0);
        return new($"https://{host}/{path}", [name, new("9.48 mm diameter"), new("by micrometer"), new("Rack B, drawer 14", 1.2, IsBold: true)], [name, new("9.48 mm diameter, by micrometer, Rack B, drawer 14")]);
    }

    private static string Letters(Random chance, int count) => "a" + string.Concat(Enumerable.Range(0, count).Select(_ => HostLetters[chance.Next(HostLetters.Length)])) + "z";

    private static (double X, double Y) Center(LabelBox box) => (box.X + (box.Width / 2), box.Y + (box.Height / 2));

    private static bool Holds(LabelBox outer, LabelBox inner) => inner.X >= outer.X - 0.01 && inner.Y >= outer.Y - 0.01 && inner.Right <= outer.Right + 0.01 && inner.Bottom <= outer.Bottom + 0.01;

    private static void AssertNear(LabelBox expected, LabelBox actual)
    {
        Assert.Equal(expected.X, actual.X, Near);
        Assert.Equal(expected.Y, actual.Y, Near);
        Assert.Equal(expected.Width, actual.Width, Near);
        Assert.Equal(expected.Height, actual.Height, Near);
    }
}
