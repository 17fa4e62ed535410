using Shimwright.Pages.Visits;

namespace Shimwright.Pages.Tests.Visits;

/// <summary>A visit ends as it does on the server.</summary>
public sealed class PageVisitsTests
{
    [Theory]
    [InlineData("/echo", 200)]
    [InlineData("/echo?q=a%20b&q=c", 200)]
    [InlineData("/ECHO/?q=%C3%A4#part", 200)]
    [InlineData("/echo?q=nothing", 404)]
    [InlineData("/nowhere", 404)]
    [InlineData("/nothing", 200)]
    [InlineData("/oh?code=413", 200)]
    public async Task Address_OfAPage_EndsAsOnTheServer(string path, int status)
    {
        await using EchoServer server = await EchoServer.StartAsync();
        Ending served = await server.ServedAsync(path);
        Assert.Equal(status, served.Status);
        (await server.VisitedAsync(path)).IsThatOf(served);
    }

    [Theory]
    [InlineData("/echo", "echo", 200, "done=echo")]
    [InlineData("/echo", "once", 200, "done=once")]
    [InlineData("/echo", "refuse", 422, "done=")]
    [InlineData("/echo", "conflict", 409, "done=")]
    [InlineData("/echo", "go", 302, "")]
    [InlineData("/echo", "none", 400, "error 400")]
    [InlineData("/echo", null, 400, "error 400")]
    [InlineData("/echo?q=nothing", "echo", 400, "error 400")]
    [InlineData("/nowhere", "echo", 404, "error 404")]
    public async Task Form_OfAPage_EndsAsOnTheServer(string path, string? name, int status, string says)
    {
        await using EchoServer server = await EchoServer.StartAsync();
        KeyValuePair<string, string>[] fields = [.. name is null ? [] : new[] { KeyValuePair.Create(SentForm.NameField, name) }, new("Sent.Text", "a")];
        using FormUrlEncodedContent form = new(fields);
        Ending served = await server.ServedAsync(path, form);
        Assert.Equal(status, served.Status);
        Assert.Contains(says, served.Html, StringComparison.Ordinal);
        (await server.VisitedAsync(path, new SentForm(fields))).IsThatOf(served);
    }

    [Fact]
    public async Task Form_ThatIsThereTwice_IsAFaultOfThePage()
    {
        await using EchoServer server = await EchoServer.StartAsync();
        await Assert.ThrowsAsync<InvalidOperationException>(() => server.VisitedAsync("/echo?q=twice", new SentForm([new(SentForm.NameField, "echo")])));
    }

    [Fact]
    public async Task File_LargerThanItsReaderAllows_IsNotRead()
    {
        VisitFile file = new("a.csv", new byte[11]);
        Assert.Throws<IOException>(() => file.OpenReadStream(10, TestContext.Current.CancellationToken));
        Assert.Equal(11, (await SentFile.ReadAsync(file, TestContext.Current.CancellationToken))!.Length);
        Assert.Null(await SentFile.ReadAsync(new VisitFile("b.csv", default), TestContext.Current.CancellationToken));
        Assert.Null(await SentFile.ReadAsync(null, TestContext.Current.CancellationToken));
    }
}
