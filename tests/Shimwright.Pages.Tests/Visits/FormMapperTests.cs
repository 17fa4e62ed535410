using System.Globalization;
using Shimwright.Pages.Visits;

namespace Shimwright.Pages.Tests.Visits;

/// <summary>Forms mean the same with and without a server: what both make of the same fields is compared, on cases named and on cases drawn.</summary>
public sealed class FormMapperTests
{
    private static readonly string[] Names =
    [
        "Sent.Text", "sent.TEXT", "Sent.Usual", "Sent.Whole", "Sent.MaybeWhole", "Sent.Real", "Sent.MaybeReal", "Sent.Flag", "Sent.MaybeFlag", "Sent.Action", "Sent.MaybeId",
        "Sent.Part.Text", "Sent.Part.Other", "Sent.Part.Inner.Text", "Sent.Part.Inner.Leaves[0].Text", "Sent.Part", "Sent.Parts[0].Text", "Sent.Parts[0].Other", "Sent.Parts[1].Text",
        "Sent.Parts[1].Inner.Text", "Sent.Parts[1].Inner.Leaves[0].Text", "Sent.Parts[2].Other", "Sent.Parts[3].Text", "Sent.Parts[00].Text", "Sent.Parts[a].Text", "Sent.Parts.Text", "Sent.Texts[0]", "Sent.Texts[1]",
        "Sent.Texts[3]", "Sent.Texts", "Sent.Counts[0]", "Sent.Counts[1]", "Sent.IsBlank", "Sent.Other", "Sent", "Text", "Any.Text", "Any.Other", "any.OTHER", "",
    ];

    private static readonly string[] Values =
    [
        "", " ", "x", "0", "7", " 7 ", "-3", "+3", "1.5", "1,5", "1e3", "1,000", "99999999999", "NaN", "∞", "-0", "true", "TRUE", " true", "on", "false", "null",
        "01234567-89ab-cdef-0123-456789abcdef", "{01234567-89ab-cdef-0123-456789abcdef}", "0123456789abcdef0123456789abcdef", "<b>&\"'</b>", "ä\r\nb", "a&b=c",
    ];

    [Theory]
    [InlineData("Sent.Parts[0].Text=a&Sent.Parts[1].Other=2&Sent.Parts[3].Text=c")]
    [InlineData("Sent.Parts[1].Text=a")]
    [InlineData("Sent.Part.Inner.Leaves[0].Text=deep")]
    [InlineData("Sent.Texts=a&Sent.Texts=b")]
    [InlineData("Sent.Text=a&Sent.Text=b&Sent.Whole=1&Sent.Whole=2")]
    [InlineData("Sent.Whole=&Sent.MaybeWhole=&Sent.Flag=&Sent.MaybeFlag=&Sent.Action=&Sent.MaybeId=&Sent.Real=&Sent.MaybeReal=&Sent.Text=")]
    [InlineData("Any.Text=whatever the form")]
    [InlineData("Sent.IsBlank=true")]
    [InlineData("")]
    public async Task Fields_OfAForm_MeanWhatTheyMeanToTheServer(string fields)
    {
        await using EchoServer server = await EchoServer.StartAsync();
        await SameAsync(server, "echo", [.. fields.Split('&', StringSplitOptions.RemoveEmptyEntries).Select(f => f.Split('=')).Select(f => KeyValuePair.Create(f[0], f[1]))]);
    }

    [Fact]
    public async Task Fields_DrawnByChance_MeanWhatTheyMeanToTheServer()
    {
        await using EchoServer server = await EchoServer.StartAsync();
        Random chance = new(20261128);
        int objects = 0;
        for (int round = 0; round < 400; round++)
        {
            KeyValuePair<string, string>[] fields = [.. Enumerable.Range(0, chance.Next(1, 14))
                .Select(_ => KeyValuePair.Create(Names[chance.Next(Names.Length)], Values[chance.Next(Values.Length)]))];
            string html = await SameAsync(server, chance.Next(5) == 0 ? "refuse" : "echo", fields);
            objects += html.Contains("sent=null", StringComparison.Ordinal) ? 0 : 1;
        }

        // The draw is worth something only where forms come out of it.
        Assert.True(objects > 200, objects.ToString(CultureInfo.InvariantCulture));
    }

    [Theory]
    [InlineData("trials.csv", 12)]
    [InlineData("empty.csv", 0)]
    [InlineData(null, 0)]
    public async Task File_OfAForm_IsWhatItIsToTheServer(string? name, int bytes)
    {
        await using EchoServer server = await EchoServer.StartAsync();
        using MultipartFormDataContent form = new() { { new StringContent("echo"), SentForm.NameField }, { new StringContent("a"), "Sent.Text" } };
        Dictionary<string, VisitFile> files = [];
        if (name is not null)
        {
            form.Add(new ByteArrayContent(new byte[bytes]), "Sent.File", name);
            files["Sent.File"] = new(name, new byte[bytes]);
        }

        Ending served = await server.ServedAsync(EchoPage.Address, form);
        (await server.VisitedAsync(EchoPage.Address, new([new(SentForm.NameField, "echo"), new("Sent.Text", "a")], files))).IsThatOf(served);
        Assert.Contains(name is null ? "null null" : $"{name} {bytes}", served.Html, StringComparison.Ordinal);
    }

    private static async Task<string> SameAsync(EchoServer server, string handler, IReadOnlyList<KeyValuePair<string, string>> fields)
    {
        KeyValuePair<string, string>[] sent = [new(SentForm.NameField, handler), .. fields];
        using FormUrlEncodedContent form = new(sent);
        Ending served = await server.ServedAsync(EchoPage.Address, form);
        (await server.VisitedAsync(EchoPage.Address, new SentForm(sent))).IsThatOf(served, string.Join(' ', sent));
        return served.Html;
    }
}
