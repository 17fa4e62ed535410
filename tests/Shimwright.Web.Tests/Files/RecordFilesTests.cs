using System.Net;
using System.Text;
using Shimwright.Bench.Jobs;
using Shimwright.Bench.Photos;
using Shimwright.Jobs.Facts;
using Shimwright.Testing.Pictures;
using Shimwright.Web.Tests.Pages;

namespace Shimwright.Web.Tests.Files;

/// <summary>The files of a record: its PDF, the photos of its job, the workshop's logo.</summary>
public sealed class RecordFilesTests
{
    [Fact]
    public async Task Record_OfAClosedJob_ComesAsAPdfAndAnOpenOneHasNone()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, "03-leave-alone.json", DemoJob.TheCheck);
        Assert.Equal(HttpStatusCode.NotFound, (await job.Client.GetAsync(new Uri(job.Address("record.pdf"), UriKind.Relative), TestContext.Current.CancellationToken)).StatusCode);
        StoredJob stored = await job.StoredAsync();
        await bench.Database.Jobs.AddAsync(job.Id, new(Guid.NewGuid(), "phone", stored.Sheet.Last, [new JobClosed(stored.Sheet.Check.Clock, "", "", "Wren")]), TestContext.Current.CancellationToken);
        using HttpResponseMessage answer = await job.Client.GetAsync(new Uri(job.Address("record.pdf"), UriKind.Relative), TestContext.Current.CancellationToken);
        Assert.Equal("application/pdf", answer.Content.Headers.ContentType!.MediaType);
        Assert.EndsWith(".pdf", answer.Content.Headers.ContentDisposition!.FileName!.Trim('"'), StringComparison.Ordinal);
        Assert.StartsWith("%PDF-", Encoding.ASCII.GetString(await answer.Content.ReadAsByteArrayAsync(TestContext.Current.CancellationToken), 0, 5), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Photo_OfAJob_ComesUnderThatJobAlone()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, "03-leave-alone.json", DemoJob.TheCheck), other = await DemoJob.StartAsync(bench, "03-leave-alone.json", DemoJob.Nothing);
        Picture photo = ArrivedPicture.Photo(SamplePicture.Jpeg(600, 400)).Picture!;
        var id = Guid.NewGuid();
        await bench.Database.Pictures.AddAsync(id, job.Id, photo, TestContext.Current.CancellationToken);
        Assert.Equal(photo.Content, await BytesAsync(job, $"photos/{id}"));
        Assert.Equal(photo.Thumb, await BytesAsync(job, $"photos/{id}/thumb"));
        Assert.Null(await BytesAsync(other, $"photos/{id}"));
        Assert.Equal(HttpStatusCode.NotFound, (await job.Client.GetAsync(new Uri("/settings/workshop/logo", UriKind.Relative), TestContext.Current.CancellationToken)).StatusCode);
    }

    private static async Task<byte[]?> BytesAsync(DemoJob job, string page)
    {
        using HttpResponseMessage answer = await job.Client.GetAsync(new Uri(job.Address(page), UriKind.Relative), TestContext.Current.CancellationToken);
        Assert.True(!answer.IsSuccessStatusCode || answer.Content.Headers.ContentType!.MediaType == "image/jpeg");
        return answer.IsSuccessStatusCode ? await answer.Content.ReadAsByteArrayAsync(TestContext.Current.CancellationToken) : null;
    }
}
