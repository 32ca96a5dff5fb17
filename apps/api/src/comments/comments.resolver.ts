import {
  Args,
  Context,
  ID,
  Mutation,
  Parent,
  Query,
  ResolveField,
  Resolver,
} from '@nestjs/graphql';
import { CurrentAccount } from '../accounts/session.guard.js';
import { PersonModel } from '../accounts/session.model.js';
import { mapPage } from '../graphql/connection.js';
import { After, First } from '../graphql/page.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { WithdrawInput } from '../graphql/withdraw.input.js';
import { toWithdrawal } from '../shapes/history.model.js';
import { PersonLoader } from '../stock/person.loader.js';
import type { CommentRow } from '../stock/rows/comment.entity.js';
import {
  AddCommentInput,
  CommentConnectionModel,
  CommentModel,
  CorrectCommentInput,
} from './comment.model.js';
import { CommentsService } from './comments.service.js';

const toComment = (row: CommentRow, by: SignedInPerson): CommentModel => ({
  id: row.id,
  revision: row.revision,
  withdrawn: toWithdrawal(row),
  words: row.words,
  writtenAt: row.createdAt,
  mine: row.personId === by.id,
  personId: row.personId,
});

@Resolver(() => CommentModel)
export class CommentsResolver {
  constructor(
    private readonly comments: CommentsService,
    private readonly people: PersonLoader,
  ) {}

  @Query(() => CommentConnectionModel, {
    name: 'comments',
    description: 'Comments on a fish or on a spawn, the oldest first, a page at a time.',
  })
  async list(
    @Args('fishId', { type: () => ID, nullable: true, description: 'The fish.' })
    fishId: string | null,
    @Args('spawnId', { type: () => ID, nullable: true, description: 'The spawn.' })
    spawnId: string | null,
    @First() first: number,
    @After() after: string | null,
    @CurrentAccount() account: SignedInPerson,
  ): Promise<CommentConnectionModel> {
    const page = await this.comments.page({ fishId, spawnId }, first, after ?? undefined);
    return mapPage(page, (row) => toComment(row, account));
  }

  @Mutation(() => CommentModel, { description: 'Comments on a fish or a spawn that you see.' })
  async addComment(
    @Args('input', { description: 'The comment.' }) input: AddCommentInput,
    @CurrentAccount() account: SignedInPerson,
  ): Promise<CommentModel> {
    return toComment(await this.comments.add(input, account), account);
  }

  @Mutation(() => CommentModel, { description: 'Corrects a comment of your own.' })
  async correctComment(
    @Args('input', { description: 'What changes.' }) input: CorrectCommentInput,
    @CurrentAccount() account: SignedInPerson,
  ): Promise<CommentModel> {
    return toComment(await this.comments.correct(input, account), account);
  }

  @Mutation(() => CommentModel, { description: 'Withdraws a comment of your own.' })
  async withdrawComment(
    @Args('input', { description: 'Which and why.' }) input: WithdrawInput,
    @CurrentAccount() account: SignedInPerson,
  ): Promise<CommentModel> {
    return toComment(await this.comments.withdraw(input, account), account);
  }

  @ResolveField(() => PersonModel, { description: 'Who wrote it.' })
  person(@Parent() comment: CommentModel, @Context() context: object): Promise<PersonModel> {
    return this.people.known(comment.personId, context);
  }
}
